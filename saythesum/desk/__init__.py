"""The adult's pages, served to the browser of this machine alone. They show values and decide nothing."""
