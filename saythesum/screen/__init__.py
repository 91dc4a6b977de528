"""The window. What pygame and SDL are told is set here, before any module of this room loads them."""

import os

os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")  # plain lines are for the pupil
os.environ.setdefault("SDL_WINDOWS_DPI_AWARENESS", "permonitorv2")  # otherwise Windows blurs what it enlarges
os.environ.setdefault("SDL_VIDEO_X11_NET_WM_BYPASS_COMPOSITOR", "0")  # or the whole screen may flicker at the start
os.environ.setdefault("SDL_VIDEO_X11_WMCLASS", "saythesum")
