package foilproof.bench;

import foilproof.language.Dialect;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * What the machine and its controller do. Nothing here drives a machine.
 *
 * @param travelMm reach of the axes, mm, or null where not known
 * @param blankAtMm where the blank's lower-left corner at the spoil board's top lies in machine coordinates, mm, or
 *     null: travel is then judged by extents
 * @param language which program language is read
 * @param units what the controller assumes where a program states no units
 * @param dwell what P of G4 counts
 * @param blockDelete whether lines that begin with a slash are skipped
 * @param onToolChange what M6 does
 * @param appliesHeightMap whether the controller itself corrects Z by the touched points
 * @param cornerDeviationMm blending in continuous path mode where the program states none, mm
 * @param maxFeedMmPerMin largest feed, mm/min, empty where not known
 * @param rapidMmPerMin rapid speed of X, Y and Z, mm/min
 * @param accelerationMmPerS2 of every axis, mm/s2
 * @param spindleMinRpm slowest spindle speed, rpm, empty where not known
 * @param spindleMaxRpm fastest spindle speed, rpm, empty where not known
 * @param backlashMm lost motion of X and Y, mm
 * @param repeatabilityMm mm
 * @param colletNut the nut above the stick-out, or null where not known
 * @param toolChangeS time for a change with its touch-off, s
 * @param extraction whether dust extraction or an enclosure is in use
 */
public record Machine(
        @Nullable XyzMm travelMm,
        @Nullable XyzMm blankAtMm,
        Language language,
        Units units,
        Dwell dwell,
        boolean blockDelete,
        OnToolChange onToolChange,
        boolean appliesHeightMap,
        double cornerDeviationMm,
        OptionalDouble maxFeedMmPerMin,
        AxisFeeds rapidMmPerMin,
        double accelerationMmPerS2,
        OptionalDouble spindleMinRpm,
        OptionalDouble spindleMaxRpm,
        XyMm backlashMm,
        double repeatabilityMm,
        @Nullable ColletNut colletNut,
        double toolChangeS,
        boolean extraction) {
    /** The same machine with another way of changing cutters. */
    public Machine withOnToolChange(OnToolChange newOnToolChange) {
        return new Machine(
                travelMm,
                blankAtMm,
                language,
                units,
                dwell,
                blockDelete,
                newOnToolChange,
                appliesHeightMap,
                cornerDeviationMm,
                maxFeedMmPerMin,
                rapidMmPerMin,
                accelerationMmPerS2,
                spindleMinRpm,
                spindleMaxRpm,
                backlashMm,
                repeatabilityMm,
                colletNut,
                toolChangeS,
                extraction);
    }

    /** The same machine with this lost motion in X and Y, mm. */
    public Machine withBacklash(XyMm newBacklashMm) {
        return new Machine(
                travelMm,
                blankAtMm,
                language,
                units,
                dwell,
                blockDelete,
                onToolChange,
                appliesHeightMap,
                cornerDeviationMm,
                maxFeedMmPerMin,
                rapidMmPerMin,
                accelerationMmPerS2,
                spindleMinRpm,
                spindleMaxRpm,
                newBacklashMm,
                repeatabilityMm,
                colletNut,
                toolChangeS,
                extraction);
    }

    /** Which programs the interpreter accepts for this controller. */
    public Dialect dialect() {
        return language() == Language.STRICT ? Dialect.STRICT : Dialect.COMMON;
    }

    /** Which program language is read. */
    public enum Language {
        /** RS274/NGC as published, nothing else. */
        STRICT("strict"),
        /** The strict language and what desktop controllers commonly accept. */
        COMMON("common");

        private final String word;

        Language(String word) {
            this.word = word;
        }

        /** The word in a job file. */
        public String word() {
            return word;
        }
    }

    /** What the controller assumes where a program states no units. */
    public enum Units {
        /** Millimetres. */
        MM("mm"),
        /** Inches. */
        INCH("inch"),
        /** Nobody knows: a program that moves before it states its units is a finding. */
        UNKNOWN("unknown");

        private final String word;

        Units(String word) {
            this.word = word;
        }

        /** The word in a job file. */
        public String word() {
            return word;
        }
    }

    /** What P of G4 counts. */
    public enum Dwell {
        /** Seconds, as RS274/NGC has it. */
        SECONDS("s"),
        /** Milliseconds. */
        MILLISECONDS("ms");

        private final String word;

        Dwell(String word) {
            this.word = word;
        }

        /** The word in a job file. */
        public String word() {
            return word;
        }
    }

    /** What M6 does. */
    public enum OnToolChange {
        /** Pauses; the new cutter is touched off. */
        STOP("stop"),
        /** Goes on: the lengths of the cutters are known. */
        MEASURED("measured"),
        /** Touches the new cutter off by a probe. */
        PROBE("probe"),
        /** Nothing: the program goes on. Whether the cutter was changed is known only where a program stop follows. */
        IGNORED("ignored");

        private final String word;

        OnToolChange(String word) {
            this.word = word;
        }

        /** The word in a job file. */
        public String word() {
            return word;
        }
    }

    /**
     * Speeds of the three axes.
     *
     * @param xMmPerMin mm/min
     * @param yMmPerMin mm/min
     * @param zMmPerMin mm/min
     */
    public record AxisFeeds(double xMmPerMin, double yMmPerMin, double zMmPerMin) {}

    /**
     * The collet nut as a cylinder.
     *
     * @param diameterMm mm
     * @param heightMm above the end of the stick-out, mm
     */
    public record ColletNut(double diameterMm, double heightMm) {}
}
