"""Where the command begins, as ``cardgen`` and as ``python -m cardgen``."""

import signal
import sys

if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # until `main` heeds it, it ends this in silence

from cardgen.cli import main

if __name__ == "__main__":
    sys.exit(main())
