"""Amounts of tens, and of tens and ones: the tens first, then across the ten."""
