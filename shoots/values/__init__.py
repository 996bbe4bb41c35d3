"""Money, periods and units: plain values that every slice may use."""
