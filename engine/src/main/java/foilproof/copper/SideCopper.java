package foilproof.copper;

import foilproof.stock.ComposedBoard;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * All that is judged of one side's copper, from a composed board: pieces and areas, foil left, strips, gaps, and the Z
 * windows of its runs. Each part is found when first asked for and kept.
 */
public final class SideCopper {
    /**
     * One tool run of the side.
     *
     * @param run index of the run in the job
     * @param lines its centre lines
     * @param copperOnly whether its cutter is kept for copper
     * @param deepest where it goes deepest below its zero; null where it cuts nothing
     * @param spreadFromMm lower end of its spread of e, mm
     * @param spreadToMm upper end
     */
    public record Run(
            int run,
            CutLines lines,
            boolean copperOnly,
            ZWindowSetup.@Nullable Deepest deepest,
            double spreadFromMm,
            double spreadToMm) {}

    /**
     * Limits of the shop's profile; all mm.
     *
     * @param strips by which strips are told and graded
     * @param gapMm widest gap that is told
     * @param traceWatchMm trace width that raises a watch when below
     * @param traceFixMm trace width that raises a fix when below
     * @param window limits of the Z window
     */
    public record Limits(
            Strip.Limits strips, double gapMm, double traceWatchMm, double traceFixMm, ZWindowSetup.Limits window) {
        /** The defaults of needs.md. */
        public static final Limits DEFAULTS =
                new Limits(Strip.Limits.DEFAULTS, 0.15, 0.25, 0.15, ZWindowSetup.Limits.DEFAULTS);
    }

    private final ComposedBoard board;
    private final int side;
    private final List<Run> runs;
    private final List<Terminal> terminals;
    private final StripFinder.@Nullable Designed designed;
    private final Limits limits;
    private final SideField field;
    private final Map<Integer, Boolean> moving = new HashMap<>();
    private final Map<Integer, ZWindow> windows = new HashMap<>();
    private @Nullable CopperMap map;
    private double untouchedMm2 = Double.NaN;
    private @Nullable List<Strip> strips;
    private @Nullable List<NarrowGap> gaps;

    /**
     * A side of a board.
     *
     * @param board the composed board
     * @param side number of the side, from 1
     * @param runs the side's runs, in their order
     * @param terminals places of the design on this side; empty where no design is known
     * @param designed what the design has as copper on this side; null where not known
     * @param limits the shop's limits
     */
    public SideCopper(
            ComposedBoard board,
            int side,
            List<Run> runs,
            List<Terminal> terminals,
            StripFinder.@Nullable Designed designed,
            Limits limits) {
        this.board = board;
        this.side = side;
        this.runs = List.copyOf(runs);
        this.terminals = List.copyOf(terminals);
        this.designed = designed;
        this.limits = limits;
        field = new SideField(board, side);
    }

    /** Margins above the glue plane. */
    public MarginField field() {
        return field;
    }

    /** Pieces and areas at the foil's bottom. */
    public synchronized CopperMap map() {
        CopperMap have = map;
        if (have == null) {
            have = CopperMap.of(field, 0);
            map = have;
        }
        return have;
    }

    /** Whether the pieces were asked for yet. */
    public synchronized boolean mapped() {
        return map != null;
    }

    private double untouchedLevelMm() {
        return field.foilMm() - 1e-6;
    }

    /** Area that a cutter entered and in which foil is left, sloping walls included, mm2. */
    public synchronized double foilLeftMm2() {
        if (Double.isNaN(untouchedMm2)) {
            untouchedMm2 = CopperMap.areaMm2(field, untouchedLevelMm());
        }
        return Math.max(0, map().copperMm2() - untouchedMm2);
    }

    /** How far {@link #foilLeftMm2} may be off, mm2. */
    public double foilLeftErrorMm2() {
        return map().areaErrorMm2() + CopperMap.area(field, untouchedLevelMm())[1];
    }

    /** Strips of foil left along a run's grooves, longest first. */
    public List<FoilLeft> foilLeft(Run run) {
        return FoilLeft.find(
                run.lines(),
                field::exactMarginMm,
                field.widthMm(),
                field.heightMm(),
                limits.window().clearedBelowFoilMm());
    }

    private List<CutLines> lines() {
        return runs.stream().map(Run::lines).toList();
    }

    /** Strips of copper narrower than is told, worst first. */
    public synchronized List<Strip> strips() {
        List<Strip> have = strips;
        if (have == null) {
            have = StripFinder.strips(map(), limits.strips(), lines(), designed);
            strips = have;
        }
        return have;
    }

    /** Strips of copper between a groove and the blank's edge narrower than a limit, narrowest first. */
    public List<EdgeStrip> edgeStrips(double widestMm, double leastLengthMm) {
        return EdgeStrips.find(map(), widestMm, leastLengthMm);
    }

    /** Gaps between pieces narrower than is told, narrowest first. */
    public synchronized List<NarrowGap> gaps() {
        List<NarrowGap> have = gaps;
        if (have == null) {
            have = StripFinder.gaps(map(), limits.gapMm());
            gaps = have;
        }
        return have;
    }

    /** The Z window of a run, the others at their set-up. */
    public synchronized ZWindow window(Run run) {
        ZWindow have = windows.get(run.run());
        if (have == null) {
            have = findWindow(run);
            windows.put(run.run(), have);
        }
        return have;
    }

    /**
     * Whether some Z error within the headroom changes the copper that a run leaves: cutters with upright walls whose
     * floors lie far below the foil change none, and need no search for nets and widths.
     */
    private boolean moves(Run run) {
        return moving.computeIfAbsent(
                run.run(), r -> RunSideField.of(board, side, r).changesWithinHeadroom());
    }

    /** Whether every net of the design is on one piece, and on its own, as the copper is. */
    private boolean netsHold() {
        Map<Integer, Integer> pieceOfGroup = new HashMap<>();
        Map<Integer, Integer> netOfPiece = new HashMap<>();
        for (Terminal terminal : terminals) {
            int piece = map().pieceAt(terminal.xMm(), terminal.yMm());
            Integer group = pieceOfGroup.putIfAbsent(terminal.group(), piece);
            Integer net = netOfPiece.putIfAbsent(piece, terminal.net());
            if (piece < 0 || group != null && group != piece || net != null && net != terminal.net()) {
                return false;
            }
        }
        return true;
    }

    private ZWindow findWindow(Run run) {
        if (!moves(run) && netsHold()) {
            return ZWindows.settled(new ZWindowSetup(
                    RunSideField.of(board, side, run.run()),
                    run.lines(),
                    terminals,
                    new double[0],
                    run.copperOnly(),
                    run.deepest(),
                    run.spreadFromMm(),
                    run.spreadToMm(),
                    null,
                    null,
                    limits.window()));
        }
        return window(
                RunSideField.of(board, side, run.run()),
                run.lines(),
                run.copperOnly(),
                run.deepest(),
                run.spreadFromMm(),
                run.spreadToMm());
    }

    /** The window of all runs at the same Z error; its spread is [0, 0]. */
    public ZWindow jointWindow() {
        return jointWindow(this::window);
    }

    /**
     * The window of all runs at the same Z error beside the one that each has; its spread is [0, 0].
     *
     * @param windowOf the windows of the single runs
     */
    public ZWindow jointWindow(Function<Run, ZWindow> windowOf) {
        Run lone = loneMover(windowOf);
        if (lone != null) {
            return windowOf.apply(lone);
        }
        ZWindowSetup.Deepest deepest = null;
        for (Run run : runs) {
            ZWindowSetup.Deepest own = run.deepest();
            if (run.copperOnly() && own != null && (deepest == null || own.belowZeroMm() > deepest.belowZeroMm())) {
                deepest = own;
            }
        }
        return window(RunSideField.joint(board, side), CutLines.all(lines()), deepest != null, deepest, 0, 0);
    }

    /** The only run that Z errors change, where the others neither change nor are limited; else null. */
    private @Nullable Run loneMover(Function<Run, ZWindow> windowOf) {
        Run lone = null;
        for (Run run : runs) {
            if (moves(run)) {
                if (lone != null) {
                    return null;
                }
                lone = run;
            } else {
                ZWindow own = windowOf.apply(run);
                if (own.limitedFrom() != null || own.limitedTo() != null) {
                    return null;
                }
            }
        }
        return lone;
    }

    private ZWindow window(
            ToolRunField run,
            CutLines cut,
            boolean copperOnly,
            ZWindowSetup.@Nullable Deepest deepest,
            double from,
            double to) {
        double highest = run.headroomMm();
        if (copperOnly && deepest != null) {
            highest = Math.min(highest, limits.window().dutyWatchMm() - deepest.belowZeroMm());
        }
        double highestFix = run.headroomMm();
        if (copperOnly && deepest != null) {
            highestFix = Math.min(highestFix, limits.window().dutyFixMm() - deepest.belowZeroMm());
        }
        // Where foil stays at the set-up nothing is apart yet: widths are those from which on the foil is cleared.
        ZLimit foil = FoilLeft.limit(cut, run, limits.window().clearedBelowFoilMm());
        boolean shallow = foil != null && foil.eMm() > 1e-6 && foil.eMm() < run.headroomMm();
        @Nullable
        ZLimit[] widths = StripFinder.widthLimits(
                shallow && foil != null ? CopperMap.of(run, foil.eMm()) : map(),
                run,
                new double[] {limits.traceWatchMm(), limits.traceFixMm()},
                new double[] {highest, highestFix},
                lines(),
                designed);
        return ZWindows.of(new ZWindowSetup(
                run,
                cut,
                terminals,
                leftoverPlaces(),
                copperOnly,
                deepest,
                from,
                to,
                widths[0],
                widths[1],
                limits.window()));
    }

    /** Places in pieces that are nothing but a leftover strip: no nets. */
    private double[] leftoverPlaces() {
        List<Double> places = new ArrayList<>();
        for (Strip strip : strips()) {
            if (strip.leftover() && strip.piece() >= 0 && covers(strip)) {
                Piece piece = map().pieces().get(strip.piece());
                places.add(piece.insideXMm());
                places.add(piece.insideYMm());
            }
        }
        return places.stream().mapToDouble(Double::doubleValue).toArray();
    }

    /** Whether a strip makes up most of its piece: its length times its width is most of the area. */
    private static boolean covers(Strip strip) {
        return strip.lengthMm() * strip.usualBaseMm() > 0.7 * strip.pieceMm2();
    }
}
