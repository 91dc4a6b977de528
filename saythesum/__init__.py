"""Practise adding a one-digit to a two-digit number across a ten, by ear, voice and keys."""

import os

# Before numpy is loaded. Its products are small here, and on busy cores its threads wait for each other: ten seconds of
# sound brought to another rate took 57 to 157 ms with two threads and 7 with one.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# Before onnxruntime is loaded, here or in a process that we start, and whatever the environment said: otherwise it
# looks up a host of its maker's, and keeps a permanent device id and a queue of events in the user's cache folder.
os.environ["ORT_DISABLE_TELEMETRY"] = "1"

__version__ = "0.1.0"
