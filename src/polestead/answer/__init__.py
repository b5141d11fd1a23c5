"""One page: a homestead goes through the rooms in order, an Answer comes out."""
