package foilproof.language;

import foilproof.source.InputLimits;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * What a program meets when it starts: the controller's switches and defaults, the tools, the positions. Immutable;
 * make one with {@link #builder()}. Lengths are millimetres in machine coordinates.
 */
public final class InterpreterSetup {
    private final Builder b;

    private InterpreterSetup(Builder builder) {
        this.b = builder;
    }

    /** A builder with the defaults that its methods state. */
    public static Builder builder() {
        return new Builder();
    }

    /** Which programs are accepted. */
    public Dialect dialect() {
        return b.dialect;
    }

    /** Units that the controller assumes before the program says any. */
    public LengthUnits initialUnits() {
        return b.initialUnits;
    }

    /** Whether G91 is in force at the start, left by an earlier job. */
    public boolean initialIncremental() {
        return b.initialIncremental;
    }

    /** The plane in force at the start. */
    public Plane initialPlane() {
        return b.initialPlane;
    }

    /** What F counts at the start. */
    public FeedMode initialFeedMode() {
        return b.initialFeedMode;
    }

    /** The motion mode in force at the start, ten times its G number; 800 (G80) for none. */
    public int initialMotionTenths() {
        return b.initialMotionTenths;
    }

    /** Whether lines that begin with {@code /} are skipped. */
    public boolean blockDelete() {
        return b.blockDelete;
    }

    /** Whether M1 stops. */
    public boolean optionalStop() {
        return b.optionalStop;
    }

    /** Seconds that one unit of P in G4 and in cycles counts: 1 or 0.001. */
    public double dwellUnitS() {
        return b.dwellUnitS;
    }

    /** The tools. */
    public ToolTable tools() {
        return b.tools;
    }

    /** The largest T, H and D number. */
    public int toolSlots() {
        return b.toolSlots >= 0 ? b.toolSlots : b.dialect == Dialect.STRICT ? 68 : 99_999;
    }

    /** What probing moves can touch. */
    public ProbeSurface probeSurface() {
        return b.probeSurface;
    }

    /** Number of the tool in the spindle at the start, 0 for none, -1 where not known. */
    public int initialTool() {
        return b.initialTool;
    }

    /** Whether machine positions are known: if not, G53, G28 and G30 lead to places that nobody knows. */
    public boolean machineKnown() {
        return b.machineKnown;
    }

    /** Origin of system 1 to 9 on axis 0 to 2, machine millimetres. */
    public double originMm(int system, int axis) {
        return b.origins[system - 1][axis];
    }

    /** Whether the home of G28 (first) or G30 (second) is known. */
    public boolean homeKnown(boolean second) {
        return (second ? b.home30 : b.home28).length == 3;
    }

    /** Home on an axis, machine millimetres; 0 where it is not known. */
    public double homeMm(boolean second, int axis) {
        double[] home = second ? b.home30 : b.home28;
        return home.length == 3 ? home[axis] : 0;
    }

    /** Where the axes stand at the start, machine millimetres. */
    public double startMm(int axis) {
        return b.start[axis];
    }

    /** Whether the start position is known; otherwise it is only assumed. */
    public boolean startKnown() {
        return b.startKnown;
    }

    /** Limits of the input. */
    public InputLimits limits() {
        return b.limits;
    }

    /** Whether text after M2 or M30 goes on running, as at a console. */
    public boolean continueAfterEnd() {
        return b.continueAfterEnd;
    }

    /**
     * Whether the F number is kept when units change (NISTIR 6556 section 4.3.3.3) rather than the speed. Open point
     * A3: the default keeps the number in the strict language and the speed in the common one.
     */
    public boolean feedNumberKept() {
        return b.feedNumberKept == null ? b.dialect == Dialect.STRICT : b.feedNumberKept;
    }

    /** Whether a probing move of G38.2 or G38.4 that does not trip is an error (strict) or only a note (common). */
    public boolean missedProbeIsError() {
        return b.missedProbeIsError == null ? b.dialect == Dialect.STRICT : b.missedProbeIsError;
    }

    /** How far a pecking cycle stays above the hole's bottom when it comes back, and G73's retract, millimetres. */
    public double peckBackOffMm() {
        return b.peckBackOffMm;
    }

    /** Whether plain moves take the short way; a test compares both. */
    boolean plainMoves() {
        return b.plainMoves;
    }

    /** Initial values of parameters 1 to 5399, or an empty array for all defaults. */
    double[] parameters() {
        return b.parameters;
    }

    /** Collects a setup. */
    public static final class Builder {
        private Dialect dialect = Dialect.COMMON;
        private LengthUnits initialUnits = LengthUnits.UNKNOWN;
        private boolean blockDelete;
        private boolean initialIncremental;
        private Plane initialPlane = Plane.XY;
        private FeedMode initialFeedMode = FeedMode.UNITS_PER_MINUTE;
        private int initialMotionTenths = 800;
        private boolean optionalStop = true;
        private double dwellUnitS = 1;
        private ToolTable tools = ToolTable.EMPTY;
        private int toolSlots = -1;
        private ProbeSurface probeSurface = ProbeSurface.NONE;
        private int initialTool = -1;
        private boolean machineKnown = true;
        private final double[][] origins = new double[9][3];
        private double[] home28 = {0, 0, 0};
        private double[] home30 = {0, 0, 0};
        private double[] start = {0, 0, 0};
        private boolean startKnown = true;
        private InputLimits limits = InputLimits.DEFAULT;
        private boolean continueAfterEnd;
        private @Nullable Boolean feedNumberKept;
        private @Nullable Boolean missedProbeIsError;
        private double peckBackOffMm = 0.254;
        private double[] parameters = {};
        private boolean plainMoves = true;

        private Builder() {}

        /** Default: {@link Dialect#COMMON}. */
        public Builder dialect(Dialect value) {
            dialect = value;
            return this;
        }

        /** Default: unknown. */
        public Builder initialUnits(LengthUnits value) {
            initialUnits = value;
            return this;
        }

        /** Starts as an earlier job may have left the controller: G91, another plane, G93, a motion mode. */
        public Builder leftOver(boolean incremental, Plane plane, FeedMode feedMode, int motionTenths) {
            initialIncremental = incremental;
            initialPlane = plane;
            initialFeedMode = feedMode;
            initialMotionTenths = motionTenths;
            return this;
        }

        /** Default: off, so that the lines run. */
        public Builder blockDelete(boolean on) {
            blockDelete = on;
            return this;
        }

        /** Default: on, so that M1 stops. */
        public Builder optionalStop(boolean on) {
            optionalStop = on;
            return this;
        }

        /** Default: 1, P counts seconds. */
        public Builder dwellUnitS(double seconds) {
            dwellUnitS = seconds;
            return this;
        }

        /** Default: none. */
        public Builder tools(ToolTable value) {
            tools = value;
            return this;
        }

        /** Default: 68 in the strict language (as in the report's stand-alone reader), 99999 in the common one. */
        public Builder toolSlots(int value) {
            toolSlots = value;
            return this;
        }

        /** Default: nothing is ever touched. */
        public Builder probeSurface(ProbeSurface value) {
            probeSurface = value;
            return this;
        }

        /** Default: -1, not known. */
        public Builder initialTool(int number) {
            initialTool = number;
            return this;
        }

        /** Default: known. */
        public Builder machineKnown(boolean known) {
            machineKnown = known;
            return this;
        }

        /** Presets the origins of all nine systems, machine millimetres. Default: 0, 0, 0. */
        public Builder origin(double xMm, double yMm, double zMm) {
            for (int system = 1; system <= 9; system++) {
                origin(system, xMm, yMm, zMm);
            }
            return this;
        }

        /** Presets the origin of one system, 1 to 9. */
        public Builder origin(int system, double xMm, double yMm, double zMm) {
            origins[system - 1] = new double[] {xMm, yMm, zMm};
            return this;
        }

        /** Home of G28, machine millimetres. Default: 0, 0, 0. */
        public Builder home28(double xMm, double yMm, double zMm) {
            home28 = new double[] {xMm, yMm, zMm};
            return this;
        }

        /** Home of G30, machine millimetres. Default: 0, 0, 0. */
        public Builder home30(double xMm, double yMm, double zMm) {
            home30 = new double[] {xMm, yMm, zMm};
            return this;
        }

        /** Says that neither home is known. */
        public Builder homesUnknown() {
            home28 = new double[0];
            home30 = new double[0];
            return this;
        }

        /** Where the axes stand, machine millimetres. Default: 0, 0, 0. */
        public Builder start(double xMm, double yMm, double zMm) {
            start = new double[] {xMm, yMm, zMm};
            startKnown = true;
            return this;
        }

        /** Where the axes are taken to stand although nobody knows. */
        public Builder startAssumed(double xMm, double yMm, double zMm) {
            start(xMm, yMm, zMm);
            startKnown = false;
            return this;
        }

        /** Default: {@link InputLimits#DEFAULT}. */
        public Builder limits(InputLimits value) {
            limits = value;
            return this;
        }

        /** Default: off; later lines are not even read. */
        public Builder continueAfterEnd(boolean on) {
            continueAfterEnd = on;
            return this;
        }

        /** See {@link InterpreterSetup#feedNumberKept()}. */
        public Builder feedNumberKept(boolean kept) {
            feedNumberKept = kept;
            return this;
        }

        /** See {@link InterpreterSetup#missedProbeIsError()}. */
        public Builder missedProbeIsError(boolean error) {
            missedProbeIsError = error;
            return this;
        }

        /** Default: 0.254 mm. */
        public Builder peckBackOffMm(double mm) {
            peckBackOffMm = mm;
            return this;
        }

        /** Presets parameter {@code number}, 1 to 5399; coordinates are in the initial units. */
        public Builder parameter(int number, double value) {
            if (number < 1 || number > 5399) {
                throw new IllegalArgumentException("parameters are 1 to 5399, not " + number);
            }
            if (parameters.length == 0) {
                parameters = new double[5400];
                Arrays.fill(parameters, Double.NaN);
            }
            parameters[number] = value;
            return this;
        }

        Builder plainMoves(boolean on) {
            plainMoves = on;
            return this;
        }

        /** The setup as collected so far; the builder may be used on. */
        public InterpreterSetup build() {
            Builder copy = new Builder();
            copy.dialect = dialect;
            copy.initialUnits = initialUnits;
            copy.blockDelete = blockDelete;
            copy.initialIncremental = initialIncremental;
            copy.initialPlane = initialPlane;
            copy.initialFeedMode = initialFeedMode;
            copy.initialMotionTenths = initialMotionTenths;
            copy.optionalStop = optionalStop;
            copy.dwellUnitS = dwellUnitS;
            copy.tools = tools;
            copy.toolSlots = toolSlots;
            copy.probeSurface = probeSurface;
            copy.initialTool = initialTool;
            copy.machineKnown = machineKnown;
            for (int i = 0; i < 9; i++) {
                copy.origins[i] = origins[i].clone();
            }
            copy.home28 = home28.clone();
            copy.home30 = home30.clone();
            copy.start = start.clone();
            copy.startKnown = startKnown;
            copy.limits = limits;
            copy.continueAfterEnd = continueAfterEnd;
            copy.feedNumberKept = feedNumberKept;
            copy.missedProbeIsError = missedProbeIsError;
            copy.peckBackOffMm = peckBackOffMm;
            copy.parameters = parameters.clone();
            copy.plainMoves = plainMoves;
            return new InterpreterSetup(copy);
        }
    }
}
