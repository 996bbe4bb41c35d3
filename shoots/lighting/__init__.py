"""Setups of light: physics, readings and the plan from above."""
