"""The whole season in one model: blocks, bands, doses and sessions, one cost and one bound."""
