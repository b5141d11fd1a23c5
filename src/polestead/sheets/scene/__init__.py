"""The drawing of the sheet: it stands still but for what tips, and says what each tilt does."""
