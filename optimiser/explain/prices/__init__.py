"""What each rule costs the season in match score."""
