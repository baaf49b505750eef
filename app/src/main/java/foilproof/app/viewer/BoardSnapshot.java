package foilproof.app.viewer;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Everything that one picture of one side at one moment needs; immutable, and cheap to make because tiles are shared.
 *
 * @param job the job's name
 * @param side number of the side, from 1
 * @param face which copper layer of the design faces up, in words ("bottom copper")
 * @param widthMm blank along X, mm
 * @param heightMm blank along Y, mm
 * @param thicknessMm blank over all, foil included, mm
 * @param foilMm foil thickness, mm
 * @param substrate what the blank is made of
 * @param copperUp whether foil lies on the face that is up now
 * @param copperDown whether foil lies on the face that is down now
 * @param tapeMm thickness of the tape under the blank, mm, 0 where none
 * @param spoilBoardMm thickness of the spoil board, mm
 * @param headroomMm height above the nominal foil top up to which envelopes are kept: it stands for "uncut", mm
 * @param surface the foil top as touched
 * @param runs tool runs that cut this face, in order
 * @param farRuns tool runs that cut the face that is down now
 * @param keepOuts clamps, brackets, pins
 * @param touchPoints where cutters are touched off
 * @param clip where the clip of an electric touch-off sits, or null
 * @param marks findings to be marked
 * @param cutter the cutter where it is at this moment, or null
 * @param timeS the moment, seconds since the job's start
 * @param stateWords where the job stands, in words
 * @param extras what a picture can do without
 */
public record BoardSnapshot(
        String job,
        int side,
        String face,
        double widthMm,
        double heightMm,
        double thicknessMm,
        double foilMm,
        Substrate substrate,
        boolean copperUp,
        boolean copperDown,
        double tapeMm,
        double spoilBoardMm,
        double headroomMm,
        Surface surface,
        List<ToolRun> runs,
        List<ToolRun> farRuns,
        List<KeepOut> keepOuts,
        List<Place> touchPoints,
        @Nullable Place clip,
        List<Mark> marks,
        @Nullable Cutter cutter,
        double timeS,
        String stateWords,
        Extras extras) {

    /** A snapshot without extras. */
    public BoardSnapshot(
            String job,
            int side,
            String face,
            double widthMm,
            double heightMm,
            double thicknessMm,
            double foilMm,
            Substrate substrate,
            boolean copperUp,
            boolean copperDown,
            double tapeMm,
            double spoilBoardMm,
            double headroomMm,
            Surface surface,
            List<ToolRun> runs,
            List<ToolRun> farRuns,
            List<KeepOut> keepOuts,
            List<Place> touchPoints,
            @Nullable Place clip,
            List<Mark> marks,
            @Nullable Cutter cutter,
            double timeS,
            String stateWords) {
        this(
                job,
                side,
                face,
                widthMm,
                heightMm,
                thicknessMm,
                foilMm,
                substrate,
                copperUp,
                copperDown,
                tapeMm,
                spoilBoardMm,
                headroomMm,
                surface,
                runs,
                farRuns,
                keepOuts,
                touchPoints,
                clip,
                marks,
                cutter,
                timeS,
                stateWords,
                Extras.NONE);
    }

    /**
     * What a picture can do without.
     *
     * @param spoilBoardKnown whether the spoil board's thickness is known; else the one given is only drawn, not claimed
     * @param pinOnes pin 1 of the parts that the design names, where they are on the face that is up, mm
     * @param fields values by place for colours that no height tells (line, time, width), or null
     */
    public record Extras(
            boolean spoilBoardKnown,
            List<Place> pinOnes,
            @Nullable Fields fields) {
        /** Nothing more is known. */
        public static final Extras NONE = new Extras(true, List.of(), null);
    }

    /** Finds values by place when they are asked for; keeps what it found. Safe from several threads. */
    public interface Fields {
        /** The values that a colouring needs under these conditions, or null where it needs none. */
        @Nullable
        FieldMap of(BoardSnapshot board, Conditions c, Look.Paint paint);
    }

    /** What a blank is made of. */
    public enum Substrate {
        /** Paper and phenolic resin, brown. */
        FR_1("FR-1"),
        /** Woven glass and epoxy, green-yellow. */
        FR_4("FR-4"),
        /** Paper core under glass skins. */
        CEM_1("CEM-1"),
        /** Glass mat core under glass skins. */
        CEM_3("CEM-3");

        private final String words;

        Substrate(String words) {
            this.words = words;
        }

        /** The name as people write it. */
        public String words() {
            return words;
        }
    }

    /**
     * Height of the foil top above its nominal place on an even grid, linear between (bilinear), clamped outside.
     *
     * @param x0Mm first column's place, mm
     * @param y0Mm first row's place, mm
     * @param stepXMm distance of columns, mm
     * @param stepYMm distance of rows, mm
     * @param columns number of columns, at least 1
     * @param rows number of rows, at least 1
     * @param heightsMm row by row from the lowest Y, + is higher, mm
     */
    public record Surface(
            double x0Mm, double y0Mm, double stepXMm, double stepYMm, int columns, int rows, float[] heightsMm) {
        /** A flat blank. */
        public static Surface flat() {
            return new Surface(0, 0, 1, 1, 1, 1, new float[1]);
        }

        /** Whether nothing departs from the nominal plane. */
        public boolean isFlat() {
            for (float h : heightsMm) {
                if (h != 0) {
                    return false;
                }
            }
            return true;
        }

        /** Height at a place, mm. */
        public double heightMm(double xMm, double yMm) {
            double u = Math.max(0, Math.min(columns - 1.0, (xMm - x0Mm) / stepXMm));
            double v = Math.max(0, Math.min(rows - 1.0, (yMm - y0Mm) / stepYMm));
            int c = Math.min((int) u, Math.max(0, columns - 2));
            int r = Math.min((int) v, Math.max(0, rows - 2));
            int c1 = Math.min(c + 1, columns - 1);
            int r1 = Math.min(r + 1, rows - 1);
            double fu = u - c;
            double fv = v - r;
            double low = heightsMm[r * columns + c] * (1 - fu) + heightsMm[r * columns + c1] * fu;
            double high = heightsMm[r1 * columns + c] * (1 - fu) + heightsMm[r1 * columns + c1] * fu;
            return low * (1 - fv) + high * fv;
        }
    }

    /**
     * One cutter in the collet from its touch-off to its removal.
     *
     * @param name the tool's name in the job
     * @param words the run in words ("engraver, isolation")
     * @param tiles the removal envelope
     * @param z0Mm where the run's zero lies under the base conditions, mm above the nominal foil top
     * @param zeroOnFoil whether the zero was touched off on the foil (it moves with bow and thickness) or on the spoil
     *     board (it does not)
     * @param touchXMm where it was touched off, mm in this run's side's frame
     * @param touchYMm where it was touched off, mm
     * @param flipX +1, or -1 where X runs the other way in the run's frame
     * @param shiftXMm x in the run's frame = flipX x + shiftXMm
     * @param flipY +1, or -1 where Y runs the other way
     * @param shiftYMm y in the run's frame = flipY y + shiftYMm
     * @param jobRun index of the run in the job, -1 where there is no job
     */
    public record ToolRun(
            String name,
            String words,
            HeightTiles tiles,
            double z0Mm,
            boolean zeroOnFoil,
            double touchXMm,
            double touchYMm,
            int flipX,
            double shiftXMm,
            int flipY,
            double shiftYMm,
            int jobRun) {
        /** A run in the frame of the side that is drawn. */
        public static ToolRun here(
                String name,
                String words,
                HeightTiles tiles,
                double z0Mm,
                boolean zeroOnFoil,
                double touchXMm,
                double touchYMm) {
            return new ToolRun(name, words, tiles, z0Mm, zeroOnFoil, touchXMm, touchYMm, 1, 0, 1, 0, -1);
        }
    }

    /** A box that no cutter may enter, mm; topMm above the foil top; a pin is round. */
    public record KeepOut(
            String name, double x0Mm, double y0Mm, double x1Mm, double y1Mm, double topMm, boolean round) {
        /** One with corners. */
        public KeepOut(String name, double x0Mm, double y0Mm, double x1Mm, double y1Mm, double topMm) {
            this(name, x0Mm, y0Mm, x1Mm, y1Mm, topMm, false);
        }
    }

    /** A named place on the foil, mm. */
    public record Place(String name, double xMm, double yMm) {}

    /**
     * A finding's mark.
     *
     * @param number as listed
     * @param words one line
     * @param severity 0 note, 1 watch, 2 fix, 3 stop
     * @param xMm place, mm
     * @param yMm place, mm
     * @param chosen whether the person has chosen it
     */
    public record Mark(int number, String words, int severity, double xMm, double yMm, boolean chosen) {}

    /**
     * The cutter at its place.
     *
     * @param name the tool's name
     * @param profileMm outline from the tip up: radius, height, radius, height, ..., mm
     * @param cutsToMm height above the tip up to which it cuts, mm; shank above
     * @param xMm tip, mm
     * @param yMm tip, mm
     * @param zMm tip, mm above the nominal foil top
     */
    public record Cutter(String name, double[] profileMm, double cutsToMm, double xMm, double yMm, double zMm) {}

    /**
     * What differs from the base when a person asks "what if".
     *
     * @param zErrorMm per tool run of {@link #runs}, + is really deeper, mm; missing entries are 0
     * @param bowMm how far the blank's middle lies low with its edge where it was, mm
     * @param foilMm foil thickness, mm
     * @param thicknessChangeMm of the blank against the base, + is thicker, mm; the snapshot's thickness has it already
     * @param absent per tool run, whether it is left out ("this tool was forgotten"); missing entries are false
     */
    public record Conditions(
            double[] zErrorMm, double bowMm, double foilMm, double thicknessChangeMm, boolean[] absent) {
        /** Z error of a run, mm. */
        public double zErrorMm(int run) {
            return run < zErrorMm.length ? zErrorMm[run] : 0;
        }

        /** Whether a run is left out. */
        public boolean isAbsent(int run) {
            return run < absent.length && absent[run];
        }
    }

    /** The conditions under which the snapshot was made. */
    public Conditions baseConditions() {
        return new Conditions(new double[0], 0, foilMm, 0, new boolean[0]);
    }

    /** Z of the spoil board's top, mm (negative). */
    public double spoilTopMm() {
        return -thicknessMm - tapeMm;
    }

    /** The bow's part of the surface: 0 at the blank's edge, -bowMm in its middle, a parabola each way; mm. */
    public double bowMm(double bowMm, double xMm, double yMm) {
        double u = Math.max(-1, Math.min(1, 2 * xMm / widthMm - 1));
        double v = Math.max(-1, Math.min(1, 2 * yMm / heightMm - 1));
        return -bowMm * (1 - u * u) * (1 - v * v);
    }

    /** Whether a place lies on the blank. */
    public boolean onBlank(double xMm, double yMm) {
        return xMm >= 0 && yMm >= 0 && xMm <= widthMm && yMm <= heightMm;
    }

    /** Foil top (spoil board top outside the blank) before any cut, mm. */
    public double blankSurfaceMm(Conditions c, double xMm, double yMm) {
        if (!onBlank(xMm, yMm)) {
            return spoilTopMm();
        }
        return surface.heightMm(xMm, yMm) + bowMm(c.bowMm(), xMm, yMm);
    }

    /** By how much a run's heights shift under these conditions: z0_k - e_k, mm. */
    public double runShiftMm(Conditions c, int run) {
        ToolRun r = runs.get(run);
        double z0 = r.z0Mm();
        if (r.zeroOnFoil()) {
            z0 += bowMm(c.bowMm(), r.touchXMm(), r.touchYMm());
        } else {
            // Z 0 is the foil top: a thicker blank puts the spoil board, and a zero on it, lower.
            z0 -= c.thicknessChangeMm();
        }
        return z0 - c.zErrorMm(run);
    }

    /** What a point of the composed board is. */
    public enum Material {
        /** Foil that no cutter touched. */
        FOIL("copper foil"),
        /** Foil of which a cutter took a part only. */
        FOIL_LEFT("foil left in a groove"),
        /** Substrate laid bare. */
        SUBSTRATE("substrate"),
        /** The foil of the far face, seen from inside. */
        FAR_FOIL("foil of the far face"),
        /** Tape under the blank. */
        TAPE("tape"),
        /** Spoil board under a hole or beside the blank. */
        SPOIL_BOARD("spoil board");

        private final String words;

        Material(String words) {
            this.words = words;
        }

        /** The material in words. */
        public String words() {
            return words;
        }
    }

    /**
     * What is found at a place.
     *
     * @param zMm composed surface, mm above the nominal foil top
     * @param surfaceMm surface before any cut, mm
     * @param material what lies bare there
     * @param run index of the tool run that made the floor, -1 where nothing cut
     */
    public record Spot(double zMm, double surfaceMm, Material material, int run) {
        /** Depth below the foil top, mm, never negative. */
        public double depthMm() {
            return Math.max(0, surfaceMm - zMm);
        }
    }

    /** The composed surface at a place: min(S, E_k + z0_k - e_k), formed as the shader forms it. */
    public Spot spot(Conditions c, double xMm, double yMm) {
        double s = blankSurfaceMm(c, xMm, yMm);
        double h = s;
        int who = -1;
        for (int k = 0; k < runs.size(); k++) {
            ToolRun r = runs.get(k);
            if (c.isAbsent(k)) {
                continue;
            }
            double topMm = headroomMm - r.z0Mm();
            double e = r.tiles().heightMm(r.flipX() * xMm + r.shiftXMm(), r.flipY() * yMm + r.shiftYMm(), topMm);
            if (e < topMm - 1e-6 && e + runShiftMm(c, k) < h) {
                h = e + runShiftMm(c, k);
                who = k;
            }
        }
        if (onBlank(xMm, yMm) && throughFromBelow(xMm, yMm, h)) {
            h = spoilTopMm();
        }
        return new Spot(h, s, material(c, xMm, yMm, s, h), who);
    }

    /** The same board with other marks. */
    public BoardSnapshot withMarks(List<Mark> newMarks) {
        return with(newMarks, thicknessMm, surface, runs, stateWords);
    }

    /** The same board on a blank of another thickness, mm. */
    public BoardSnapshot withThickness(double newThicknessMm) {
        return with(marks, newThicknessMm, surface, runs, stateWords);
    }

    /** The same board with more to say about where the job stands. */
    BoardSnapshot saying(String more) {
        return with(marks, thicknessMm, surface, runs, stateWords + more);
    }

    /** How much higher the foil top lies at a place, mm. */
    @FunctionalInterface
    public interface Raise {
        /** Height added, mm. */
        double heightMm(double xMm, double yMm);
    }

    /**
     * The same cuts on a blank whose foil top lies higher or lower: each run that was touched off on the foil moves with
     * its touch point. Exact as long as the cuts were swept with headroom enough.
     */
    public BoardSnapshot withRaised(Raise more) {
        int n = 65;
        double dx = widthMm / (n - 1);
        double dy = heightMm / (n - 1);
        float[] heights = new float[n * n];
        for (int r = 0; r < n; r++) {
            for (int c = 0; c < n; c++) {
                heights[r * n + c] = (float) (surface.heightMm(c * dx, r * dy) + more.heightMm(c * dx, r * dy));
            }
        }
        List<ToolRun> moved = new java.util.ArrayList<>();
        for (ToolRun r : runs) {
            double up = r.zeroOnFoil() ? more.heightMm(r.touchXMm(), r.touchYMm()) : 0;
            moved.add(new ToolRun(
                    r.name(),
                    r.words(),
                    r.tiles(),
                    r.z0Mm() + up,
                    r.zeroOnFoil(),
                    r.touchXMm(),
                    r.touchYMm(),
                    r.flipX(),
                    r.shiftXMm(),
                    r.flipY(),
                    r.shiftYMm(),
                    r.jobRun()));
        }
        return with(marks, thicknessMm, new Surface(0, 0, dx, dy, n, n, heights), List.copyOf(moved), stateWords);
    }

    private BoardSnapshot with(
            List<Mark> newMarks, double newThicknessMm, Surface newSurface, List<ToolRun> newRuns, String newWords) {
        return new BoardSnapshot(
                job,
                side,
                face,
                widthMm,
                heightMm,
                newThicknessMm,
                foilMm,
                substrate,
                copperUp,
                copperDown,
                tapeMm,
                spoilBoardMm,
                headroomMm,
                newSurface,
                newRuns,
                farRuns,
                keepOuts,
                touchPoints,
                clip,
                List.copyOf(newMarks),
                cutter,
                timeS,
                newWords,
                extras);
    }

    /** Whether a cut from the far face reaches up to this height or above, so that the blank is open there. */
    public boolean throughFromBelow(double xMm, double yMm, double zMm) {
        return !farRuns.isEmpty() && undersideMm(xMm, yMm) >= zMm - 1e-4 && undersideMm(xMm, yMm) > -thicknessMm;
    }

    /** Underside of the blank, raised where the far face was cut, mm above the nominal foil top of this side. */
    public double undersideMm(double xMm, double yMm) {
        double h = -thicknessMm;
        for (ToolRun r : farRuns) {
            double topMm = headroomMm - r.z0Mm();
            double e = r.tiles().heightMm(r.flipX() * xMm + r.shiftXMm(), r.flipY() * yMm + r.shiftYMm(), topMm);
            if (e < topMm - 1e-6) {
                h = Math.max(h, -thicknessMm - (e + r.z0Mm()));
            }
        }
        return h;
    }

    private Material material(Conditions c, double xMm, double yMm, double s, double h) {
        if (!onBlank(xMm, yMm)) {
            return Material.SPOIL_BOARD;
        }
        if (copperUp && h > s - c.foilMm()) {
            return h >= s - 0.0005 ? Material.FOIL : Material.FOIL_LEFT;
        }
        if (h > -thicknessMm) {
            return copperDown && h < -thicknessMm + c.foilMm() ? Material.FAR_FOIL : Material.SUBSTRATE;
        }
        return h > spoilTopMm() ? Material.TAPE : Material.SPOIL_BOARD;
    }
}
