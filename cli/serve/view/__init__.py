"""What the page shows, as plain data; every figure is worked out from the plan."""
