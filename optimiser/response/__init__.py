"""How training becomes readiness, and the response fitted to a squad's own tests."""
