"""The season model: calendar, readiness, decision board, solver stages and audits."""
