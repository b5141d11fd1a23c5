"""What the owner's log teaches: month factors, faults, view, engine, and what foresight would have saved."""
