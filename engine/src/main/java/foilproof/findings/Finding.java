package foilproof.findings;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One thing that a person should know before the blank goes down. Coordinates are mm in the blank's frame seen with
 * that side's face up, lower-left corner (0, 0), Z 0 = nominal foil top, down negative.
 *
 * @param kind trade word, kebab-case, one of {@link Kinds}
 * @param severity how bad
 * @param certainty what it rests on
 * @param message what is wrong, with values and units
 * @param doThis what to change
 * @param side from 1; null where no side is meant
 * @param atMm x, y; null where no place is meant
 * @param boxMm x0, y0, x1, y1 of what is affected; null where none
 * @param program program file; null where none
 * @param line physical line, from 1; null where none
 * @param timeS moment, seconds since the job's start; null where none
 * @param tool tool name; null where none
 * @param measured measured value; null where none
 * @param limit the limit it was held against; null where none
 * @param marginMm signed distance to the limit, negative = beyond it; null where it is no length
 * @param consequences findings that follow from this one and are folded under it
 */
public record Finding(
        String kind,
        Severity severity,
        Certainty certainty,
        String message,
        String doThis,
        @Nullable Integer side,
        double @Nullable [] atMm,
        double @Nullable [] boxMm,
        @Nullable String program,
        @Nullable Integer line,
        @Nullable Double timeS,
        @Nullable String tool,
        @Nullable Measured measured,
        @Nullable Limit limit,
        @Nullable Double marginMm,
        List<Finding> consequences) {

    /** Starts a finding. */
    public static Builder of(String kind, Severity severity, Certainty certainty) {
        return new Builder(kind, severity, certainty);
    }

    /** The same finding in other words. */
    public Finding saying(String newMessage) {
        return copy(severity, newMessage, doThis, consequences);
    }

    /** The same finding with another remedy. */
    public Finding doing(String newRemedy) {
        return copy(severity, message, newRemedy, consequences);
    }

    /** The same finding with {@code others} folded under it, after what is folded under it already. */
    public Finding withConsequences(List<Finding> others) {
        List<Finding> all = new ArrayList<>(consequences);
        all.addAll(others);
        return withOnly(all);
    }

    /** The same finding with {@code others} alone folded under it. */
    public Finding withOnly(List<Finding> others) {
        return copy(severity, message, doThis, List.copyOf(others));
    }

    /** The same finding at another severity. */
    public Finding withSeverity(Severity other) {
        return copy(other, message, doThis, consequences);
    }

    private Finding copy(Severity newSeverity, String newMessage, String newRemedy, List<Finding> newConsequences) {
        return new Finding(
                kind,
                newSeverity,
                certainty,
                newMessage,
                newRemedy,
                side,
                atMm,
                boxMm,
                program,
                line,
                timeS,
                tool,
                measured,
                limit,
                marginMm,
                newConsequences);
    }

    /** Collects the parts of a finding; every part but kind, severity, certainty, message and remedy may be absent. */
    public static final class Builder {
        private final String kind;
        private final Severity severity;
        private final Certainty certainty;
        private String message = "";
        private String doThis = "";
        private @Nullable Integer side;
        private double @Nullable [] atMm;
        private double @Nullable [] boxMm;
        private @Nullable String program;
        private @Nullable Integer line;
        private @Nullable Double timeS;
        private @Nullable String tool;
        private @Nullable Measured measured;
        private @Nullable Limit limit;
        private @Nullable Double marginMm;
        private List<Finding> consequences = List.of();

        private Builder(String kind, Severity severity, Certainty certainty) {
            this.kind = kind;
            this.severity = severity;
            this.certainty = certainty;
        }

        /** What is wrong. */
        public Builder says(String text) {
            message = text;
            return this;
        }

        /** What to change. */
        public Builder doThis(String text) {
            doThis = text;
            return this;
        }

        /** The side, from 1. */
        public Builder side(int number) {
            side = number;
            return this;
        }

        /** The place, mm in the blank's frame of the side. */
        public Builder at(double xMm, double yMm) {
            atMm = new double[] {xMm, yMm};
            return this;
        }

        /** The box of what is affected, mm. */
        public Builder box(double x0Mm, double y0Mm, double x1Mm, double y1Mm) {
            boxMm = new double[] {x0Mm, y0Mm, x1Mm, y1Mm};
            return this;
        }

        /** The line of the program. */
        public Builder line(String file, int physicalLine) {
            program = file;
            line = physicalLine > 0 ? physicalLine : null;
            return this;
        }

        /** The program as a whole. */
        public Builder program(String file) {
            program = file;
            return this;
        }

        /** The moment, seconds since the job's start. */
        public Builder time(double momentS) {
            timeS = Double.isNaN(momentS) ? null : momentS;
            return this;
        }

        /** The tool's name. */
        public Builder tool(String name) {
            tool = name;
            return this;
        }

        /** The measured value and no limit. */
        public Builder measured(Measured value) {
            measured = value;
            return this;
        }

        /** The measured value that must not fall below a limit; the margin is value - limit. */
        public Builder atLeast(Measured value, double least) {
            measured = value;
            limit = new Limit(least, value.unit());
            marginMm = value.unit().equals("mm") ? value.value() - least : null;
            return this;
        }

        /** The measured value that must not rise above a limit; the margin is limit - value. */
        public Builder atMost(Measured value, double most) {
            measured = value;
            limit = new Limit(most, value.unit());
            marginMm = value.unit().equals("mm") ? most - value.value() : null;
            return this;
        }

        /** The margin, mm, where it is not the difference of measured value and limit. */
        public Builder margin(double valueMm) {
            marginMm = valueMm;
            return this;
        }

        /** Findings folded under this one. */
        public Builder folding(List<Finding> others) {
            consequences = List.copyOf(others);
            return this;
        }

        /** The finding. */
        public Finding build() {
            return new Finding(
                    kind,
                    severity,
                    certainty,
                    message,
                    doThis,
                    side,
                    atMm,
                    boxMm,
                    program,
                    line,
                    timeS,
                    tool,
                    measured,
                    limit,
                    marginMm,
                    consequences);
        }
    }
}
