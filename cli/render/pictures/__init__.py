"""Pictures of plans and batches."""
