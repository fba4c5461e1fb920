"""Lets ``python -m cardgen`` run the command line."""

import sys

from cardgen.cli import main

sys.exit(main())
