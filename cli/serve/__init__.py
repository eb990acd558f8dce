"""A page on this machine on which a season is changed and planned again."""
