"""Which taper is this, and does it hold itself?

`identify.identify(evidence, tapers)` ranks the standard tapers by what was measured on an old one;
`holding.holding(half_angle)` holds its angle against the friction of steel. The rooms are imported by name
where they are wanted, so that starting does not wait for them.
"""
