"""Why there is no plan and what would have to give way; what holds a plan back or is left aside."""
