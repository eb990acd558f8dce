"""What people are told of a plan, worked out from the plan alone: scores, audit, description."""
