"""Measured pictures in words: a sentence for one, a sentence for a set, a name for a colour. No queries."""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shoots.mood.core.agreement import Miss, Row, Together
from shoots.mood.core.direction import FoundLight, Untold
from shoots.mood.core.measure import Measured, contrast_stops
from shoots.mood.core.palette import Depth, Hue, name_of
from shoots.mood.core.scales import Scale, Span, value_on
from shoots.mood.core.tone import Key, Tint, Tones, tint_of

SCALE_LABELS = {
    Scale.LIGHTNESS: gettext_lazy("Lightness"),
    Scale.SHADOW: gettext_lazy("In shadow"),
    Scale.HIGHLIGHT: gettext_lazy("In the highlights"),
    Scale.CONTRAST: gettext_lazy("Contrast"),
    Scale.CHROMA: gettext_lazy("Strength of colour"),
    Scale.WARM_HIGHLIGHTS: gettext_lazy("Tint of the highlights"),
    Scale.WARM_SHADOWS: gettext_lazy("Tint of the shadows"),
    Scale.DIRECTION: gettext_lazy("Light from"),
}
#: What each number is, for somebody who opens it.
SCALE_NOTES = {
    Scale.LIGHTNESS: gettext_lazy("L* that half of the picture lies below: 0 is black, 50 mid grey, 100 white."),
    Scale.SHADOW: gettext_lazy("Share with an L* below 33.3, the lowest third of the scale."),
    Scale.HIGHLIGHT: gettext_lazy("Share with an L* of 66.7 or more, the highest third of the scale."),
    Scale.CONTRAST: gettext_lazy("From the 5th to the 95th percentile of L*."),
    Scale.CHROMA: gettext_lazy("Mean chroma C*: below 6 nearly colourless, below 16 muted, from 32 strong."),
    Scale.WARM_HIGHLIGHTS: gettext_lazy("Tint of the brightest quarter: plus is warm, minus cool, under 4 neutral."),
    Scale.WARM_SHADOWS: gettext_lazy("Tint of the darkest quarter: plus is warm, minus cool, under 4 neutral."),
    Scale.DIRECTION: gettext_lazy("Clockwise from the top of the picture, read from smooth shading."),
}
KEY_WORDS = {
    Key.LOW: gettext_lazy("Dark"),
    Key.HIGH: gettext_lazy("Bright"),
    Key.MIDDLE: gettext_lazy("Neither dark nor bright"),
    Key.SPLIT: gettext_lazy("Half dark, half bright"),
}
KEY_COUNTS = {
    Key.LOW: gettext_lazy("%(n)d dark"),
    Key.HIGH: gettext_lazy("%(n)d bright"),
    Key.SPLIT: gettext_lazy("%(n)d half dark, half bright"),
    Key.MIDDLE: gettext_lazy("%(n)d in between"),
}
TINT_WORDS = {
    Tint.WARM: gettext_lazy("warm"),
    Tint.NEUTRAL: gettext_lazy("neutral"),
    Tint.COOL: gettext_lazy("cool"),
}
SIDES = (
    gettext_lazy("the top"),
    gettext_lazy("the upper right"),
    gettext_lazy("the right"),
    gettext_lazy("the lower right"),
    gettext_lazy("below"),
    gettext_lazy("the lower left"),
    gettext_lazy("the left"),
    gettext_lazy("the upper left"),
)
HUE_WORDS = {
    Hue.PINK: gettext_lazy("pink"),
    Hue.RED: gettext_lazy("red"),
    Hue.ORANGE: gettext_lazy("orange"),
    Hue.BROWN: gettext_lazy("brown"),
    Hue.YELLOW: gettext_lazy("yellow"),
    Hue.OLIVE: gettext_lazy("olive"),
    Hue.GREEN: gettext_lazy("green"),
    Hue.TURQUOISE: gettext_lazy("turquoise"),
    Hue.BLUE: gettext_lazy("blue"),
    Hue.VIOLET: gettext_lazy("violet"),
}
NEUTRAL_WORDS = {
    Depth.BLACK: gettext_lazy("black"),
    Depth.DEEP: gettext_lazy("charcoal"),
    Depth.DARK: gettext_lazy("dark grey"),
    Depth.MIDDLE: gettext_lazy("mid grey"),
    Depth.LIGHT: gettext_lazy("light grey"),
    Depth.PALE: gettext_lazy("pale grey"),
    Depth.WHITE: gettext_lazy("white"),
}
DEPTH_WORDS = {
    Depth.DEEP: gettext_lazy("deep"),
    Depth.DARK: gettext_lazy("dark"),
    Depth.LIGHT: gettext_lazy("light"),
    Depth.PALE: gettext_lazy("pale"),
}


def colour_name(lab: tuple[float, float, float]) -> str:
    """Return "dark greyish blue"."""
    name = name_of(lab)
    if name.hue is Hue.NEUTRAL:
        return str(NEUTRAL_WORDS[name.depth])
    parts = [DEPTH_WORDS.get(name.depth), _("greyish") if name.is_greyish else "", HUE_WORDS[name.hue]]
    return " ".join(str(part) for part in parts if part)


def side(degrees: float) -> str:
    """Return "the upper left" from a direction clockwise from the top."""
    return str(SIDES[round(degrees / 45.0) % 8])


def light_words(light: FoundLight) -> str:
    """Return where the light comes from, or why that can't be told."""
    if light.from_deg is not None:
        return _("light from %(side)s") % {"side": side(light.from_deg)}
    if light.untold is Untold.NO_SHADING:
        return _("the side of the light can’t be told: hardly any smooth shading")
    if light.untold is Untold.LIKE_A_SKY:
        return _("the side of the light can’t be told: it grows lighter downwards, as any sky does")
    return _("the side of the light can’t be told: from the front, all round, or several sides")


def shares(key: Key, shadow: float, highlight: float) -> str:
    """Return the share that the key rests on."""
    words = {"shadow": f"{shadow:.0f}", "high": f"{highlight:.0f}", "middle": f"{100 - shadow - highlight:.0f}"}
    if key is Key.LOW:
        return _("%(shadow)s %% in shadow") % words
    if key is Key.HIGH:
        return _("%(high)s %% in the highlights") % words
    if key is Key.SPLIT:
        return _("%(shadow)s %% in shadow, %(high)s %% in the highlights") % words
    return _("%(middle)s %% in the middle tones") % words


def tint_words(tones: Tones) -> str:
    """Return "highlights warm, shadows cool", or one word where both are the same."""
    high, low = tint_of(tones.warm_highlights), tint_of(tones.warm_shadows)
    if high is low:
        return _("%(tint)s throughout") % {"tint": TINT_WORDS[high]}
    return _("highlights %(high)s, shadows %(low)s") % {"high": TINT_WORDS[high], "low": TINT_WORDS[low]}


def picture_sentence(found: Measured) -> str:
    """Return "Dark; 72 % in shadow; highlights warm, shadows cool; light from the upper left."."""
    tones = found.tones
    parts = [
        str(KEY_WORDS[tones.key]),
        shares(tones.key, tones.shadow_percent, tones.highlight_percent),
        tint_words(tones),
    ]
    if found.light.from_deg is not None:
        parts.append(light_words(found.light))
    return "; ".join(parts) + "."


def numbers(places: Sequence[int]) -> str:
    """Return "3 and 5" or "1, 3 and 5" from places counted from 0."""
    shown = [str(place + 1) for place in places]
    if len(shown) < 2:
        return "".join(shown)
    return _("%(first)s and %(last)s") % {"first": ", ".join(shown[:-1]), "last": shown[-1]}


def set_sentence(set_: Together, count: int, waiting: int = 0) -> str:
    """Return "Dark; 70 % in shadow; references 3 and 5 disagree.", and how many of the set wait to be measured."""
    if set_.pulls_apart and len(set(set_.keys)) > 1:
        counts = [words % {"n": set_.keys.count(key)} for key, words in KEY_COUNTS.items() if key in set_.keys]
        says = _("The references pull apart: %(kinds)s.") % {"kinds": ", ".join(str(part) for part in counts)}
        return f"{says} {_waiting_words(waiting)}".strip()
    parts = [str(KEY_WORDS[set_.key]), shares(set_.key, set_.shadow_percent, set_.highlight_percent)]
    if set_.pulls_apart:
        parts.append(_("the references pull apart in colour and light"))
    elif set_.stray:
        words = ngettext("reference %(n)s disagrees", "references %(n)s disagree", len(set_.stray))
        parts.append(words % {"n": numbers(set_.stray)})
    elif count > 1:
        parts.append(_("all %(n)d references agree") % {"n": count} if count > 2 else _("both references agree"))
    return f"{'; '.join(parts)}. {_waiting_words(waiting)}".strip()


def _waiting_words(waiting: int) -> str:
    """Return what is not in the sentence yet, or nothing."""
    words = ngettext("%(n)d more is being measured.", "%(n)d more are being measured.", waiting)
    return words % {"n": waiting} if waiting else ""


def place_words(set_: Together, brightness: int) -> str:
    """Return how the set stands against the mood's own place between dark and bright."""
    words = {"set": f"{set_.place:.0f}", "mood": brightness}
    if abs(set_.place - brightness) <= 15:
        says = _("From 0, dark, to 100, bright: the references stand at %(set)s, the mood is set to %(mood)d.")
    elif set_.place > brightness:
        says = _(
            "The references are brighter than the mood: from 0 to 100 they stand at %(set)s, it is set to %(mood)d."
        )
    else:
        says = _("The references are darker than the mood: from 0 to 100 they stand at %(set)s, it is set to %(mood)d.")
    return says % words


def value_words(scale: Scale, value: float | None) -> str:
    """Return a number on a scale with its unit, and with its word where it has one."""
    if value is None:
        return _("can’t be told")
    if scale in {Scale.SHADOW, Scale.HIGHLIGHT}:
        return f"{value:.0f} %"
    if scale is Scale.DIRECTION:
        return f"{side(value)}, {value:.0f}°"
    if scale in {Scale.WARM_HIGHLIGHTS, Scale.WARM_SHADOWS}:
        number = f"{value:+.0f}".replace("-", "−").replace("+0", "0").replace("−0", "0")
        return f"{TINT_WORDS[tint_of(value)]}, {number}"
    if scale is Scale.CHROMA:
        strength = (
            _("nearly colourless")
            if value < 6
            else _("muted")
            if value < 16
            else _("clear")
            if value < 32
            else _("strong")
        )
        return f"{strength}, C* {value:.0f}"
    return f"L* {value:.0f}"


def figure_words(scale: Scale, found: Measured) -> str:
    """Return one of a picture's figures in words; contrast also in stops, the light with its reason."""
    value = value_on(scale, found)
    if scale is Scale.CONTRAST:
        return _("L* %(span).0f, %(stops).1f stops") % {
            "span": found.tones.contrast,
            "stops": contrast_stops(found.tones),
        }
    if scale is Scale.DIRECTION and value is None:
        return light_words(found.light).rpartition(": ")[2].capitalize()
    return value_words(scale, value)


def span_words(scale: Scale, span: Span) -> str:
    """Return what is asked for on a scale."""
    if scale is Scale.DIRECTION:
        middle = (span.low + ((span.high - span.low) % 360.0) / 2.0) % 360.0
        return _("from %(side)s") % {"side": side(middle)}
    low, high = (f"{part:.0f}".replace("-", "−") for part in (span.low, span.high))
    unit = " %" if scale in {Scale.SHADOW, Scale.HIGHLIGHT} else ""
    sign = {Scale.CHROMA: "C* ", Scale.LIGHTNESS: "L* ", Scale.CONTRAST: "L* "}.get(scale, "")
    return _("%(low)s to %(high)s") % {"low": f"{sign}{low}", "high": f"{high}{unit}"}


def row_words(row: Row) -> str:
    """Return whether a set agrees on a scale, and who pulls away."""
    told = sum(value is not None for value in row.values)
    if told == 0:
        return _("no reference tells it")
    if row.apart and len(row.apart) == told and told > 1:
        return _("all pull apart")
    if row.apart:
        words = ngettext("%(n)s pulls away", "%(n)s pull away", len(row.apart))
        return words % {"n": numbers(row.apart)}
    return _("agree") if told > 1 else _("one reference alone")


def miss_words(miss: Miss) -> str:
    """Return "Lightness L* 64, asked for L* 5 to 32"."""
    return _("%(scale)s: %(value)s; asked for %(span)s") % {
        "scale": SCALE_LABELS[miss.scale],
        "value": value_words(miss.scale, miss.value),
        "span": span_words(miss.scale, miss.target),
    }


def verdict_sentence(misses: Sequence[Miss], strange: int) -> str:
    """Return how a picture stands against its mood."""
    if not misses and not strange:
        return _("Within the mood.")
    first: list[str] = []
    by = {miss.scale: miss.by for miss in misses}
    if any(by.get(scale, 0) * sign > 0 for scale, sign in _BRIGHTER):
        first.append(_("brighter than agreed"))
    elif any(by.get(scale, 0) * sign < 0 for scale, sign in _BRIGHTER):
        first.append(_("darker than agreed"))
    for scale, more, less in (
        (Scale.CONTRAST, _("harder in contrast"), _("flatter")),
        (Scale.CHROMA, _("more colourful"), _("less colourful")),
        (Scale.WARM_HIGHLIGHTS, _("warmer in the highlights"), _("cooler in the highlights")),
        (Scale.WARM_SHADOWS, _("warmer in the shadows"), _("cooler in the shadows")),
    ):
        if scale in by:
            first.append(more if by[scale] > 0 else less)
    if Scale.DIRECTION in by:
        first.append(_("lit from another side"))
    if strange:
        words = ngettext("%(n)d colour that the mood doesn’t have", "%(n)d colours that the mood doesn’t have", strange)
        first.append(words % {"n": strange})
    sentence = "; ".join(first)
    return sentence[:1].upper() + sentence[1:] + "."


_BRIGHTER = ((Scale.LIGHTNESS, 1), (Scale.SHADOW, -1), (Scale.HIGHLIGHT, 1))
