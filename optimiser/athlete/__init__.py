"""From bands to athletes: loads, tests and the numbers on a session card."""
