"""Jumps: from how high a heavy athlete may drop."""

#: Heaviest athlete, in kg, for whom depth jumps are not limited; and the limit in metres above
#: (Potach and Chu, in NSCA Essentials of Strength Training and Conditioning, from memory).
DROP_LIMIT = (100.0, 0.46)
