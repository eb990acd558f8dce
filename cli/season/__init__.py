"""A season folder: a season in progress, its files, its history and what day it is."""
