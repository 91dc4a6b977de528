"""What is kept beside practices and rows, and written beside somebody who practises: entries, moves, forks."""
