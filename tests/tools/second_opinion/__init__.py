"""How the second opinion is made: what is said, by which voices, through which rooms, into frames, into weights.

`recordings` packs the recordings of people, `bank` makes the frames, `train` the weights; `development` hears the
development recordings, and `choose` prints what the second opinion makes of them.
"""
