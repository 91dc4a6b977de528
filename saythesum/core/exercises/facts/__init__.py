"""The facts that the way across a ten stands on, as questions of their own."""
