"""Place, climate, weather files, synthetic years, design wind, snow, soil and frost."""
