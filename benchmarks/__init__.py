"""Speed as ratios within one run: ours against a reference doing the same sums.  `make bench`."""
