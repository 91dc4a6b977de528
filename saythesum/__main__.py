import sys

from saythesum.app.cli import main

sys.exit(main())
