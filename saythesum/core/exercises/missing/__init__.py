"""A missing number: the amount or the start is asked for, and the total is said."""
