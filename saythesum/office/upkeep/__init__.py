"""What the operations share: writing beside a practice, caches that go, what is remembered of the erased."""
