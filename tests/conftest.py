"""Settings for all tests.

On CI the properties draw the same examples each time, so that red is about the change; elsewhere they go on
looking for new ones.
"""

from __future__ import annotations

import os

from hypothesis import settings

settings.register_profile("same-each-time", derandomize=True, print_blob=True)
if os.environ.get("CI"):
    settings.load_profile("same-each-time")
