"""What is on paper: reports, sheets, and the answers that came back."""
