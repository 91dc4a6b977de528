"""Groups of pages, a module each: what is asked for is looked up or done by the office, and a template shows it."""
