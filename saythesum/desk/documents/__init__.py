"""Pages for people who are not at the desk: README links to them, and the desk shows them."""
