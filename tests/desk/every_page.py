"""Every page of the desk, by its address, in a home where the pupil rk-7 and the grid harbour are."""

PAGES = (
    "/",
    "/pupils/",
    "/pupils/new",
    "/pupils/rk-7/",
    "/help/",
)
