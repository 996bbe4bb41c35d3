"""The bag: cameras, lights, modifiers, gels, stands and batteries of the studio."""
