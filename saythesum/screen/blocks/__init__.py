"""What a layout is put together of: each as large as it fits, with its shapes from (0, 0) or at a place."""
