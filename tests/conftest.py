"""How generated tests run: without a clock, and the same ones each time where CI is set, so that a busy machine decides nothing."""

import os

from hypothesis import settings

settings.register_profile("at-the-desk", deadline=None)
settings.register_profile("same-each-time", deadline=None, derandomize=True)
settings.load_profile("same-each-time" if os.environ.get("CI") else "at-the-desk")
