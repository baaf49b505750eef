package foilproof.house;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** Tells whether a name of a number says its unit, or needs none. */
final class UnitNames {
    private static final Set<String> UNITS = Set.of(
            "mm",
            "mm2",
            "mm3",
            "um",
            "um2",
            "nm",
            "m",
            "inch",
            "thou",
            "rad",
            "deg",
            "s",
            "ms",
            "min",
            "rpm",
            "hz",
            "px",
            "pixel",
            "n",
            "ohm",
            "mohm",
            "a",
            "v",
            "w",
            "k",
            "c",
            "cells",
            "cell",
            "percent",
            "ratio",
            "fraction",
            "factor",
            "count",
            "turns",
            "sq",
            "squares",
            "kg",
            "j",
            "pa",
            "mpa",
            "oz",
            "mv",
            "db",
            "points",
            "units");
    private static final Set<String> QUANTITIES = Set.of(
            "length",
            "width",
            "height",
            "depth",
            "thickness",
            "radius",
            "diameter",
            "distance",
            "gap",
            "feed",
            "speed",
            "velocity",
            "acceleration",
            "angle",
            "turn",
            "time",
            "duration",
            "x",
            "y",
            "z",
            "offset",
            "headroom",
            "pitch",
            "stickout",
            "runout",
            "backlash",
            "error",
            "chord",
            "sagitta",
            "perimeter",
            "area",
            "volume",
            "spread",
            "bow",
            "tilt",
            "margin",
            "dwell",
            "delay",
            "start",
            "end",
            "span",
            "rotation",
            "step",
            "tolerance",
            "reach",
            "ring");

    private UnitNames() {}

    /** False where {@code name} sounds like a length, speed, angle or time and does not say its unit. */
    static boolean tellsItsUnit(String name) {
        List<String> words = words(name);
        for (String word : words) {
            if (UNITS.contains(word)) {
                return true;
            }
        }
        return words.stream().map(UnitNames::stem).noneMatch(QUANTITIES::contains);
    }

    private static String stem(String word) {
        return word.matches("[xyz]\\d*") ? word.substring(0, 1) : word;
    }

    private static List<String> words(String name) {
        String spaced = name.contains("_") || name.equals(name.toUpperCase(Locale.ROOT))
                ? name.replace('_', ' ')
                : name.replaceAll("(?<=[a-z0-9])(?=[A-Z])|(?<=[A-Z])(?=[A-Z][a-z])", " ");
        return Arrays.stream(spaced.split(" "))
                .map(w -> w.toLowerCase(Locale.ROOT))
                .toList();
    }
}
