"""What the bench starts as processes of their own: modules, so that the type checker follows them."""
