"""What stands by the battery: its fuse, its gas, its charging current, its set-points, its one bond."""
