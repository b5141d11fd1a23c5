"""What lies in the ground: cover, conduit, ribbon, and the owner's own buried lines."""
