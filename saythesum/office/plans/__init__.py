"""The plan of the week: what is to be done on which day, by whom, and when to stop."""
