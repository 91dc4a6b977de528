"""Sheets, answers from paper, and what a report is made of."""
