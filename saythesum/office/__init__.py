"""What an adult does with pupils, grids, plans and records. The desk and the verbs both call these operations."""
