"""Milliseconds for the listening side's libraries, its model, and the tree of the numbers."""

from time import perf_counter

began_s = perf_counter()

from saythesum.core.meanings import Awaiting  # noqa: E402 - importing is what is timed
from saythesum.hearing.embedded.moonshine import embedded_model  # noqa: E402
from saythesum.hearing.embedded.recogniser import tree  # noqa: E402

imported_s = perf_counter()
embedded_model()
loaded_s = perf_counter()
tree(Awaiting.NUMBER)
print((imported_s - began_s) * 1000, (loaded_s - imported_s) * 1000, (perf_counter() - loaded_s) * 1000)
