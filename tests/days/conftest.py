from hypothesis import settings

# A busy machine must not fail a test.
settings.register_profile("no_clock", deadline=None)
settings.load_profile("no_clock")
