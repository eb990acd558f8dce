"""Solvers behind one small door: CP-SAT for plans, HiGHS for bounds."""
