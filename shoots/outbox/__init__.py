"""Jobs and mail: a row first, a broker later, so that nothing is lost between the two."""
