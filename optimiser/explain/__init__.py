"""When there is no plan: the smallest clash of rules, and what would have to give way."""
