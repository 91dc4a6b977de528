"""How the second opinion is made: what is said, by which voices, through which rooms, into frames, into weights.

`recordings` packs the recordings of people, `bank` makes the frames, `train` the weights. What they are good for is
measured by `tests.tools.listening --opinions`, with weights that have not heard the voice they are asked about.
"""
