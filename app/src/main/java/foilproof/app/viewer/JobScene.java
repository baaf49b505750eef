package foilproof.app.viewer;

import foilproof.bench.Face;
import foilproof.bench.Job;
import foilproof.bench.Machine;
import foilproof.bench.Side;
import foilproof.bench.Tool;
import foilproof.bench.XyMm;
import foilproof.copper.CopperMap;
import foilproof.copper.SideField;
import foilproof.design.Netlist;
import foilproof.design.Pad;
import foilproof.design.Placement;
import foilproof.design.PlaneMap;
import foilproof.findings.Examiner;
import foilproof.findings.Finding;
import foilproof.findings.ReadDesign;
import foilproof.findings.RunFacts;
import foilproof.findings.Severity;
import foilproof.motion.TipState;
import foilproof.motion.ToolRun;
import foilproof.source.InputException;
import foilproof.stock.BoardStock;
import foilproof.stock.BoardTimeline;
import foilproof.stock.ComposedBoard;
import foilproof.stock.Conditions;
import foilproof.stock.Envelope;
import foilproof.stock.PointHistory;
import foilproof.stock.RunCut;
import foilproof.stock.SideStock;
import foilproof.stock.Timeline;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * A swept job as the pictures need it: hands out a snapshot of any side at any moment. Safe from several threads; tiles
 * that did not change between two moments are the same arrays in both snapshots.
 */
public final class JobScene {
    /** Points of the blank's surface in a snapshot, along each axis. */
    private static final int SURFACE_POINTS = 129;

    private final Examiner.Ground ground;
    private final ComposedBoard base;
    private final BoardTimeline timeline;
    private final double endS;
    private final WorkFields fields;
    private @Nullable List<PinOne> pinOnes;

    /** The scene of a swept job. */
    public JobScene(Examiner.Ground ground) {
        this.ground = ground;
        base = ground.stock().under(Conditions.NOMINAL);
        timeline = new BoardTimeline(ground.stock(), Timeline.KEYFRAMES);
        endS = ground.plan().totals().totalS();
        fields = new WorkFields(ground);
    }

    /** The job. */
    public Job job() {
        return ground.job();
    }

    /** Plan, stock, runs. */
    public Examiner.Ground ground() {
        return ground;
    }

    /** The job's end, seconds since its start. */
    public double endS() {
        return endS;
    }

    /** Number of the side that lies up at a moment, from 1. */
    public int sideAt(double timeS) {
        int run = ground.plan().runAt(timeS);
        return run < 0 ? 1 : ground.plan().runs().get(run).side();
    }

    private ComposedBoard at(double timeS) {
        return timeS >= endS ? base : timeline.at(timeS, Conditions.NOMINAL);
    }

    /** The engine's board at a snapshot's moment under the picture's conditions: for exact questions. */
    public ComposedBoard boardAt(BoardSnapshot board, BoardSnapshot.Conditions c) {
        Conditions e =
                Conditions.NOMINAL.withBow(c.bowMm()).withFoil(c.foilMm()).withThickness(board.thicknessMm());
        for (int i = 0; i < board.runs().size(); i++) {
            int run = board.runs().get(i).jobRun();
            e = e.withZError(run, c.zErrorMm(i)).withPresent(run, !c.isAbsent(i));
        }
        return timeline.at(board.timeS(), e);
    }

    /** Who cut at a place, exactly, from the segment bins. */
    public PointHistory history(BoardSnapshot board, BoardSnapshot.Conditions c, double xMm, double yMm) {
        return PointHistory.at(boardAt(board, c).side(board.side()), xMm, yMm);
    }

    /**
     * A side at a moment.
     *
     * @param timeS the moment, seconds since the job's start; the finished board from its end on
     * @param side number of the side, from 1
     */
    public BoardSnapshot snapshot(double timeS, int side) {
        ComposedBoard board = at(timeS);
        Job job = ground.job();
        BoardStock stock = ground.stock();
        Side lying = job.sides().get(side - 1);
        List<BoardSnapshot.ToolRun> runs = new ArrayList<>();
        List<BoardSnapshot.ToolRun> far = new ArrayList<>();
        double headroomMm = 0.3;
        for (SideStock other : board.stock().sides()) {
            boolean here = stock.sameFace(side, other.number());
            for (RunCut cut : other.runs()) {
                headroomMm = Math.max(headroomMm, cut.envelope().settings().headroomMm());
                (here ? runs : far).add(toolRun(cut, other.number(), side, board, here));
            }
        }
        TipState tip = ground.plan().tipAt(timeS);
        boolean finished = timeS >= endS;
        boolean sideUpNow = tip.run() < 0 || ground.plan().runs().get(tip.run()).side() == side;
        boolean firstFace = stock.sameFace(1, side);
        XyMm clip = lying.probeClipMm();
        return new BoardSnapshot(
                job.name(),
                side,
                lying.face().word() + " copper",
                stock.blank().widthMm(),
                stock.blank().heightMm(),
                stock.blank().thicknessMm(),
                stock.blank().foilMm(),
                BoardSnapshot.Substrate.values()[job.blank().substrate().ordinal()],
                stock.blank().bothSides() || firstFace,
                stock.blank().bothSides() || !firstFace,
                lying.tapeMm(),
                job.spoilBoard().thicknessMm().orElse(6),
                headroomMm,
                surface(stock.sides().get(side - 1)),
                runs,
                far,
                keepOuts(side),
                touchPoints(side),
                clip == null ? null : new BoardSnapshot.Place("clip", clip.xMm(), clip.yMm()),
                List.of(),
                finished || !sideUpNow ? null : cutter(tip),
                timeS,
                words(tip, side, finished),
                new BoardSnapshot.Extras(job.spoilBoard().thicknessMm().isPresent(), pinOnes(side), fields));
    }

    /** The conditions that the job itself asks for (z_error, bow), in the order of a snapshot's runs. */
    public BoardSnapshot.Conditions askedConditions(BoardSnapshot board) {
        Conditions asked = ground.board().conditions();
        double[] errors = new double[board.runs().size()];
        boolean[] absent = new boolean[errors.length];
        for (int i = 0; i < errors.length; i++) {
            int run = board.runs().get(i).jobRun();
            errors[i] = asked.zErrorMm(run);
            absent[i] = !asked.present(run);
        }
        return new BoardSnapshot.Conditions(errors, asked.bowMm(), board.foilMm(), 0, absent);
    }

    /**
     * All copper that is joined to a place on a side's face, as a mask of ones, or null where no copper is.
     *
     * @param board the side and moment
     * @param c under which conditions
     * @param xMm place, mm in the side's frame
     * @param yMm place, mm
     */
    public @Nullable FieldMap joinedCopper(BoardSnapshot board, BoardSnapshot.Conditions c, double xMm, double yMm) {
        CopperMap map = CopperMap.of(new SideField(boardAt(board, c), board.side()), 0);
        int piece = map.pieceAt(xMm, yMm);
        return piece < 0 ? null : pieceMask(board, map, piece);
    }

    /** One piece of a side's copper as a mask of ones. */
    public static FieldMap pieceMask(BoardSnapshot board, CopperMap map, int piece) {
        FieldMap grid = FieldMap.over(board);
        float[] mask = new float[grid.values().length];
        for (int r = 0; r < grid.rows(); r++) {
            for (int x = 0; x < grid.columns(); x++) {
                boolean in = map.pieceAt((x + 0.5) * grid.cellMm(), (r + 0.5) * grid.cellMm()) == piece;
                mask[r * grid.columns() + x] = in ? 1 : Float.NaN;
            }
        }
        return grid.with(mask);
    }

    private record PinOne(String name, boolean top, boolean bottom, double xMm, double yMm) {}

    /** Pin 1 of the parts that netlist or layer images name, on the face that is up; read once, when first asked for. */
    private synchronized List<BoardSnapshot.Place> pinOnes(int side) {
        List<PinOne> all = pinOnes;
        if (all == null) {
            all = readPinOnes();
            pinOnes = all;
        }
        PlaneMap map = Placement.of(ground.job()).blankFromDesign(side - 1);
        boolean top = ground.job().sides().get(side - 1).face() == Face.TOP;
        List<BoardSnapshot.Place> here = new ArrayList<>();
        for (PinOne p : all) {
            if (top ? p.top() : p.bottom()) {
                here.add(new BoardSnapshot.Place(p.name(), map.xMm(p.xMm(), p.yMm()), map.yMm(p.xMm(), p.yMm())));
            }
        }
        return here;
    }

    private List<PinOne> readPinOnes() {
        ReadDesign read;
        try {
            read = ReadDesign.of(ground.job());
        } catch (InputException e) {
            // The checks tell of it; the picture goes without pin marks.
            return List.of();
        }
        List<PinOne> all = new ArrayList<>();
        if (read.netlist() != null) {
            for (Netlist.TestPoint t : read.netlist().points()) {
                if ("1".equals(t.pin()) && t.reference() != null) {
                    boolean both = t.holeMm() != null || t.access() == Netlist.Access.BOTH;
                    all.add(new PinOne(
                            t.reference() + "-1",
                            both || t.access() == Netlist.Access.TOP,
                            both || t.access() == Netlist.Access.BOTTOM,
                            t.xMm(),
                            t.yMm()));
                }
            }
        }
        if (all.isEmpty()) {
            read.layers().forEach((face, layer) -> {
                for (Pad pad : layer.pads()) {
                    String ref = pad.attributes().reference();
                    if (ref != null && "1".equals(pad.attributes().pin())) {
                        boolean up = face == Face.TOP;
                        all.add(new PinOne(ref + "-1", up, !up, pad.xMm(), pad.yMm()));
                    }
                }
            });
        }
        return List.copyOf(all);
    }

    private BoardSnapshot.ToolRun toolRun(RunCut cut, int from, int side, ComposedBoard board, boolean here) {
        BoardStock stock = ground.stock();
        RunFacts facts = ground.runs().get(cut.run());
        double x0 = stock.xOnSideMm(side, from, 0);
        double y0 = stock.yOnSideMm(side, from, 0);
        String work =
                facts.entry().work() == null ? "" : ", " + facts.entry().work().word();
        return new BoardSnapshot.ToolRun(
                facts.toolName(),
                facts.toolName() + work,
                tiles(cut.envelope()),
                // What-ifs of the face that is down do not move with a slider: they are in its heights.
                board.zeroMm(cut.run())
                        - (here ? 0 : ground.board().conditions().zErrorMm(cut.run())),
                !facts.zeroOnSpoilBoard(),
                cut.touchXMm(),
                cut.touchYMm(),
                x0 == 0 ? 1 : -1,
                x0,
                y0 == 0 ? 1 : -1,
                y0,
                cut.run());
    }

    private static HeightTiles tiles(Envelope envelope) {
        foilproof.stock.HeightTiles t = envelope.tiles();
        HeightTiles.Tile[] tiles = new HeightTiles.Tile[t.tilesX() * t.tilesY()];
        for (int r = 0; r < t.tilesY(); r++) {
            for (int c = 0; c < t.tilesX(); c++) {
                float[] heights = t.sharedTile(t.tileX0() + c, t.tileY0() + r);
                if (heights != null) {
                    tiles[r * t.tilesX() + c] = new HeightTiles.ArrayTile(heights);
                }
            }
        }
        double tileMm = t.cellMm() * foilproof.stock.HeightTiles.TILE;
        return new HeightTiles(
                t.tileX0() * tileMm,
                t.tileY0() * tileMm,
                t.cellMm(),
                foilproof.stock.HeightTiles.TILE,
                t.tilesX(),
                t.tilesY(),
                tiles);
    }

    private BoardSnapshot.Surface surface(SideStock side) {
        if (side.surface().isFlat()) {
            return BoardSnapshot.Surface.flat();
        }
        double dx = ground.stock().blank().widthMm() / (SURFACE_POINTS - 1);
        double dy = ground.stock().blank().heightMm() / (SURFACE_POINTS - 1);
        float[] heights = new float[SURFACE_POINTS * SURFACE_POINTS];
        for (int r = 0; r < SURFACE_POINTS; r++) {
            for (int c = 0; c < SURFACE_POINTS; c++) {
                heights[r * SURFACE_POINTS + c] = (float) side.surface().heightMm(c * dx, r * dy);
            }
        }
        return new BoardSnapshot.Surface(0, 0, dx, dy, SURFACE_POINTS, SURFACE_POINTS, heights);
    }

    private List<BoardSnapshot.KeepOut> keepOuts(int side) {
        List<BoardSnapshot.KeepOut> all = new ArrayList<>();
        // Clamps stay where they stand on the table when the blank is turned over: the same box for every side.
        for (foilproof.bench.KeepOut k : ground.job().keepOuts()) {
            all.add(new BoardSnapshot.KeepOut(k.name(), k.x0Mm(), k.y0Mm(), k.x1Mm(), k.y1Mm(), k.topMm()));
        }
        List<XyMm> pins = ground.job().sides().get(side - 1).pinsMm();
        for (int i = 0; i < pins.size(); i++) {
            double r = 1.0;
            double x = pins.get(i).xMm();
            double y = pins.get(i).yMm();
            all.add(new BoardSnapshot.KeepOut("indication pin " + (i + 1), x - r, y - r, x + r, y + r, 1.5, true));
        }
        return all;
    }

    private List<BoardSnapshot.Place> touchPoints(int side) {
        List<BoardSnapshot.Place> all = new ArrayList<>();
        for (RunFacts run : ground.runs()) {
            ToolRun r = run.run();
            if (r.side() == side && r.touchPointNamed() && !run.zeroOnSpoilBoard()) {
                BoardSnapshot.Place p = new BoardSnapshot.Place("touch-off", r.touchXMm(), r.touchYMm());
                if (!all.contains(p)) {
                    all.add(p);
                }
            }
        }
        return all;
    }

    private BoardSnapshot.@Nullable Cutter cutter(TipState tip) {
        if (tip.run() < 0 || tip.segment() < 0 || ground.runs().get(tip.run()).tool() == null) {
            return null;
        }
        RunFacts run = ground.runs().get(tip.run());
        Tool tool = java.util.Objects.requireNonNull(run.tool());
        double z = tip.zMm() + ground.board().zeroMm(run.run().index()) - run.zErrorMm();
        return new BoardSnapshot.Cutter(
                tool.name(), profile(tool, ground.job().machine().colletNut()), cutsTo(tool), tip.xMm(), tip.yMm(), z);
    }

    /** Outline of the cutter of a run of a snapshot (radius, height, ...), mm, or null where it is not known. */
    public double @Nullable [] profileOf(BoardSnapshot board, int run) {
        Tool tool = ground.runs().get(board.runs().get(run).jobRun()).tool();
        return tool == null ? null : profile(tool, ground.job().machine().colletNut());
    }

    private static double cutsTo(Tool tool) {
        return tool.fluteLengthMm().orElse(Math.min(12, tool.stickOutMm().orElse(12)));
    }

    /** Outline of a cutter from its tip to the collet nut: radius, height, ...; mm. */
    static double[] profile(Tool tool, Machine.@Nullable ColletNut nut) {
        List<Double> p = new ArrayList<>();
        double stickOut = tool.stickOutMm().orElse(15);
        double body = Double.isInfinite(tool.diameterMm()) ? tool.shankMm().orElse(3.175) / 2 : tool.diameterMm() / 2;
        double flutes = Math.min(cutsTo(tool), stickOut);
        double rise = flutes;
        for (int i = 0; i <= 400; i++) {
            if (tool.radiusAtHeightMm(flutes * i / 400) >= body - 1e-9) {
                rise = flutes * i / 400;
                break;
            }
        }
        addPoint(p, 0, 0);
        int steps = 16;
        for (int i = 0; i <= steps; i++) {
            double h = rise * i / steps;
            addPoint(p, tool.radiusAtHeightMm(h), h);
        }
        addPoint(p, Math.min(body, tool.radiusAtHeightMm(flutes)), flutes);
        double shank = tool.shankMm().orElse(body * 2) / 2;
        addPoint(p, shank, Math.min(stickOut, flutes + Math.abs(shank - body)));
        addPoint(p, shank, stickOut);
        if (nut != null) {
            addPoint(p, nut.diameterMm() / 2, stickOut);
            addPoint(p, nut.diameterMm() / 2, stickOut + nut.heightMm());
        }
        return p.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private static void addPoint(List<Double> p, double radiusMm, double heightMm) {
        p.add(radiusMm);
        p.add(heightMm);
    }

    private String words(TipState tip, int side, boolean finished) {
        if (finished) {
            return "side " + side + " of " + ground.job().sides().size() + ", job finished, "
                    + clock(ground.plan().totals().totalS());
        }
        String z = tip.run() < 0 || tip.segment() < 0
                ? ""
                : String.format(
                        Locale.ROOT,
                        ", %s, Z %+.3f mm",
                        ground.runs().get(tip.run()).toolName(),
                        tip.zMm());
        return "side " + side + ", " + tip.words(ground.plan()) + z + ", " + clock(tip.timeS());
    }

    /** Seconds as minutes and seconds, "02:11". */
    public static String clock(double timeS) {
        long s = Math.max(0, (long) Math.floor(timeS + 1e-6));
        return String.format(Locale.ROOT, "%02d:%02d", s / 60, s % 60);
    }

    /**
     * The marks of findings on a side; numbers count all findings from 1 as listed.
     *
     * @param findings as listed
     * @param side number of the side
     * @param chosen index of the chosen finding, -1 for none
     */
    public static List<BoardSnapshot.Mark> marks(List<Finding> findings, int side, int chosen) {
        List<BoardSnapshot.Mark> marks = new ArrayList<>();
        for (int i = 0; i < findings.size(); i++) {
            Finding f = findings.get(i);
            double[] at = f.atMm();
            if (at != null && (f.side() == null || f.side() == side)) {
                marks.add(new BoardSnapshot.Mark(
                        i + 1, f.kind(), Severity.NOTE.ordinal() - f.severity().ordinal(), at[0], at[1], i == chosen));
            }
        }
        return marks;
    }
}
