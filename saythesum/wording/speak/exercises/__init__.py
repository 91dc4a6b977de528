"""What is said of one exercise: its questions, its steps, and true things about a wrong number."""
