"""What is said once with every set of cards."""

#: In the order printed. Landing and surface: NSCA; gradual return: Caterisano et al. (2019),
#: Strength and Conditioning Journal 41(3): 1-23; rises: ACSM (2009), Medicine and Science in
#: Sports and Exercise 41(3): 687-708, and the NSCA's 2-for-2 rule (from memory).
CARE = (
    "These numbers start from averages of groups that were studied; the coach's eye and the "
    "athlete's word come first. This is a planning aid and not a medical device.",
    "Have every athlete medically cleared, have every session supervised by qualified staff, and "
    "follow local policy. The medical team alone decides on return to play.",
    "Stop at pain, dizziness or a change in movement. Progress only those who move well; the plan "
    "knows nothing of heat, illness, sleep or the ground.",
    "Warm up fully. Sprint on dry, even ground and come back to top speed step by step. Land on a "
    "surface that gives, in good shoes; no drop jumps when tired.",
    "Add load by 2-10 %, and only after two repetitions over target in the last set of two "
    "sessions running.",
)

#: What to do at pain, on every session.
PAIN = "Pain, dizziness or a change in how you move: stop, tell the staff, do not try again today."

YOUNG = (
    "under 18: at most 3 days a week, not in a row; rises of at most 10 %; supervised throughout"
)
