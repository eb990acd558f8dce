"""Invented leagues: clubs, a fixture list and the calendar around it."""
