package foilproof.app.ui;

import foilproof.app.viewer.BoardSnapshot;
import foilproof.app.viewer.Camera;
import foilproof.app.viewer.JobScene;
import foilproof.app.viewer.Look;
import foilproof.bench.Job;
import foilproof.bench.JobMove;
import foilproof.bench.XyMm;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.Catalogue;
import foilproof.findings.Finding;
import foilproof.motion.Segments;
import foilproof.motion.TipState;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/** All state of the bench; used on the event thread only. Snapshots are made in the background and arrive later. */
final class BenchModel {
    /** What changed. */
    enum Change {
        /** Another job, or none. */
        JOB,
        /** The findings of the job, or of the what-if. */
        RESULT,
        /** What checks found that still run. */
        JUDGING,
        /** Moment or side. */
        TIME,
        /** Conditions. */
        CONDITIONS,
        /** Camera, colours, theme. */
        VIEW,
        /** The snapshot to be drawn. */
        BOARD,
        /** The chosen finding or the place that was asked. */
        CHOICE
    }

    /** How the pictures of the job and of the what-if are held against each other. */
    enum Compare {
        /** The what-if alone. */
        NONE,
        /** The job at the left of a divider, the what-if at its right. */
        SWIPE,
        /** Copper that the what-if has more and less. */
        DIFFERENCE
    }

    /** What a drag or a click on the board means. */
    enum Hand {
        /** Click asks, drag turns. */
        ASK,
        /** Drag measures from point to point. */
        RULER,
        /** Drag cuts a section. */
        SECTION,
        /** Drag moves the job on its blank. */
        ZERO
    }

    /** Ends of a line on a side, mm in the blank's frame, and how well each is known: a pixel where it was dragged. */
    record Line(int side, double x0Mm, double y0Mm, double x1Mm, double y1Mm, double errorMm) {
        Line(int side, double x0Mm, double y0Mm, double x1Mm, double y1Mm) {
            this(side, x0Mm, y0Mm, x1Mm, y1Mm, 0);
        }

        double lengthMm() {
            return Math.hypot(x1Mm - x0Mm, y1Mm - y0Mm);
        }
    }

    /** How the foil top may lie, beside bow. */
    enum Shape {
        /** As the job says. */
        FLAT("no twist"),
        /** Two corners high, two low. */
        TWIST("twist"),
        /** Swarf under the corner at X 0, Y 0 lifts it. */
        CORNER("swarf under the X 0 Y 0 corner");

        private final String words;

        Shape(String words) {
            this.words = words;
        }

        String words() {
            return words;
        }

        /** Height at a share of the blank's width and height, for 1 mm of shape. */
        double height(double u, double v) {
            return switch (this) {
                case FLAT -> 0;
                case TWIST -> (2 * u - 1) * (2 * v - 1);
                case CORNER -> Math.max(0, 1 - Math.hypot(u, v));
            };
        }
    }

    /**
     * Conditions for which the cutters are swept again; NaN and absent keys: as the job has it.
     *
     * @param shape a preset of the foil top
     * @param shapeMm how much of it, mm
     * @param pointsMm heights of dragged points on an even square grid over the blank, row by row from the lowest Y;
     *     empty for none, mm
     * @param tiltXMm right edge higher by this than the left one, mm
     * @param tiltYMm far edge higher by this than the near one, mm
     * @param backlashXMm backlash, mm
     * @param backlashYMm backlash, mm
     * @param inCollet tool name by tool number
     * @param runoutMm by tool name, mm
     * @param tipMm flat tip by tool name, mm
     * @param work what else of programs and zero differs
     */
    record Swept(
            Shape shape,
            double shapeMm,
            List<Double> pointsMm,
            double tiltXMm,
            double tiltYMm,
            double backlashXMm,
            double backlashYMm,
            Map<Integer, String> inCollet,
            Map<String, Double> runoutMm,
            Map<String, Double> tipMm,
            Work work) {
        static final Swept NONE = new Swept(
                Shape.FLAT, 0, List.of(), 0, 0, Double.NaN, Double.NaN, Map.of(), Map.of(), Map.of(), Work.NONE);

        Swept {
            pointsMm = pointsMm.stream().allMatch(h -> h == 0) ? List.of() : List.copyOf(pointsMm);
            inCollet = Map.copyOf(inCollet);
            runoutMm = Map.copyOf(runoutMm);
            tipMm = Map.copyOf(tipMm);
        }

        /** Whether the foil top lies as the job says. */
        boolean lies() {
            return shape == Shape.FLAT && pointsMm.isEmpty() && tiltXMm == 0 && tiltYMm == 0;
        }

        /** How much higher the foil top lies at a share of the blank's width and height, mm. */
        double heightMm(double u, double v) {
            return shapeMm * shape.height(u, v) + tiltXMm * (u - 0.5) + tiltYMm * (v - 0.5) + points(u, v);
        }

        private double points(double u, double v) {
            if (pointsMm.isEmpty()) {
                return 0;
            }
            int n = (int) Math.round(Math.sqrt(pointsMm.size()));
            double x = Math.max(0, Math.min(1, u)) * (n - 1);
            double y = Math.max(0, Math.min(1, v)) * (n - 1);
            int i = Math.min(n - 2, (int) x);
            int j = Math.min(n - 2, (int) y);
            double low = pointsMm.get(j * n + i) * (i + 1 - x) + pointsMm.get(j * n + i + 1) * (x - i);
            double high = pointsMm.get((j + 1) * n + i) * (i + 1 - x) + pointsMm.get((j + 1) * n + i + 1) * (x - i);
            return low * (j + 1 - y) + high * (y - j);
        }

        Swept withShape(Shape s, double mm) {
            Shape kept = mm == 0 ? Shape.FLAT : s;
            return new Swept(
                    kept, mm, pointsMm, tiltXMm, tiltYMm, backlashXMm, backlashYMm, inCollet, runoutMm, tipMm, work);
        }

        Swept withPoints(List<Double> mm) {
            return new Swept(
                    shape, shapeMm, mm, tiltXMm, tiltYMm, backlashXMm, backlashYMm, inCollet, runoutMm, tipMm, work);
        }

        Swept withTilt(double x, double y) {
            return new Swept(shape, shapeMm, pointsMm, x, y, backlashXMm, backlashYMm, inCollet, runoutMm, tipMm, work);
        }

        Swept withBacklash(double x, double y) {
            return new Swept(shape, shapeMm, pointsMm, tiltXMm, tiltYMm, x, y, inCollet, runoutMm, tipMm, work);
        }

        Swept withCollet(int number, @Nullable String tool) {
            Map<Integer, String> m = new HashMap<>(inCollet);
            m.remove(number);
            if (tool != null) {
                m.put(number, tool);
            }
            return new Swept(
                    shape, shapeMm, pointsMm, tiltXMm, tiltYMm, backlashXMm, backlashYMm, m, runoutMm, tipMm, work);
        }

        Swept withRunout(String tool, double mm) {
            Map<String, Double> m = put(runoutMm, tool, mm);
            return new Swept(
                    shape, shapeMm, pointsMm, tiltXMm, tiltYMm, backlashXMm, backlashYMm, inCollet, m, tipMm, work);
        }

        Swept withTip(String tool, double mm) {
            Map<String, Double> m = put(tipMm, tool, mm);
            return new Swept(
                    shape, shapeMm, pointsMm, tiltXMm, tiltYMm, backlashXMm, backlashYMm, inCollet, runoutMm, m, work);
        }

        Swept withWork(Work w) {
            return new Swept(
                    shape, shapeMm, pointsMm, tiltXMm, tiltYMm, backlashXMm, backlashYMm, inCollet, runoutMm, tipMm, w);
        }

        private static Map<String, Double> put(Map<String, Double> old, String tool, double mm) {
            Map<String, Double> m = new HashMap<>(old);
            m.remove(tool);
            if (!Double.isNaN(mm)) {
                m.put(tool, mm);
            }
            return m;
        }
    }

    /**
     * Another way to run the programs.
     *
     * @param feedShare feeds by this factor, 1 as programmed
     * @param speedShare spindle speeds by this factor, 1 as programmed
     * @param zeroXMm the job, programs and design, moved along X of the first side by this, mm
     * @param zeroYMm the same along Y, mm
     * @param turnRad the job turned by this about the zero of its first program, counter-clockwise, rad
     * @param order places of the programs, side by side in the job's order, in the order in which they are to run; empty
     *     as in the job
     */
    record Work(
            double feedShare, double speedShare, double zeroXMm, double zeroYMm, double turnRad, List<Integer> order) {
        static final Work NONE = new Work(1, 1, 0, 0, 0, List.of());

        Work {
            order = List.copyOf(order);
        }

        Work withFeed(double share) {
            return new Work(share, speedShare, zeroXMm, zeroYMm, turnRad, order);
        }

        Work withSpeed(double share) {
            return new Work(feedShare, share, zeroXMm, zeroYMm, turnRad, order);
        }

        Work withZero(double x, double y) {
            return new Work(feedShare, speedShare, x, y, turnRad, order);
        }

        Work withTurn(double rad) {
            return new Work(feedShare, speedShare, zeroXMm, zeroYMm, rad, order);
        }

        /** Where the job lies on its blank. */
        JobMove move(Job job) {
            if (zeroXMm == 0 && zeroYMm == 0 && turnRad == 0) {
                return JobMove.NONE;
            }
            XyMm about = JobFootprint.pivot(job);
            return new JobMove(zeroXMm, zeroYMm, turnRad, about.xMm(), about.yMm());
        }

        Work withOrder(List<Integer> newOrder) {
            boolean same = true;
            for (int i = 0; i < newOrder.size(); i++) {
                same &= newOrder.get(i) == i;
            }
            return new Work(feedShare, speedShare, zeroXMm, zeroYMm, turnRad, same ? List.of() : newOrder);
        }
    }

    /** Conditions that act while a slider moves; runs by their index in the job. */
    record WhatIf(
            Map<Integer, Double> zErrorMm,
            double bowMm,
            double foilMm,
            double thicknessChangeMm,
            List<Integer> absent,
            Swept swept) {
        static final WhatIf NONE = new WhatIf(Map.of(), 0, Double.NaN, 0, List.of(), Swept.NONE);

        WhatIf {
            zErrorMm = Map.copyOf(zErrorMm);
            absent = List.copyOf(absent);
        }

        WhatIf withZError(int run, double mm) {
            Map<Integer, Double> m = new HashMap<>(zErrorMm);
            if (Math.abs(mm) < 1e-9) {
                m.remove(run);
            } else {
                m.put(run, mm);
            }
            return new WhatIf(m, bowMm, foilMm, thicknessChangeMm, absent, swept);
        }

        WhatIf withAbsent(int run, boolean gone) {
            List<Integer> a = new ArrayList<>(absent);
            a.remove((Integer) run);
            if (gone) {
                a.add(run);
            }
            return new WhatIf(zErrorMm, bowMm, foilMm, thicknessChangeMm, a, swept);
        }

        WhatIf withBow(double mm) {
            return new WhatIf(zErrorMm, mm, foilMm, thicknessChangeMm, absent, swept);
        }

        WhatIf withFoil(double mm) {
            return new WhatIf(zErrorMm, bowMm, mm, thicknessChangeMm, absent, swept);
        }

        WhatIf withThicknessChange(double mm) {
            return new WhatIf(zErrorMm, bowMm, foilMm, mm, absent, swept);
        }

        WhatIf withSwept(Swept s) {
            return new WhatIf(zErrorMm, bowMm, foilMm, thicknessChangeMm, absent, s);
        }
    }

    private final List<Consumer<Change>> listeners = new ArrayList<>();
    private final ExecutorService snapshots = Executors.newSingleThreadExecutor(task -> {
        Thread t = new Thread(task, "foilproof-snapshots");
        t.setDaemon(true);
        return t;
    });
    private final AtomicInteger wantedSnapshot = new AtomicInteger();
    private final List<WhatIf> undo = new ArrayList<>();
    private final List<WhatIf> redo = new ArrayList<>();
    private long lastChange;

    private @Nullable JobScene scene;
    private @Nullable DryRunResult result;
    private @Nullable DryRunResult whatIfResult;
    private @Nullable DryRunResult earlier;
    private boolean keptView;
    private Catalogue.@Nullable Partial judging;
    private Catalogue.@Nullable Partial whatIfJudging;
    private @Nullable BoardSnapshot board;
    private @Nullable BoardSnapshot baseBoard;
    private @Nullable JobScene sweptScene;
    private Swept sweptFor = Swept.NONE;
    private final List<Raised> raised = new ArrayList<>();
    private Compare compare = Compare.NONE;
    private double swipe = 0.5;
    private Hand hand = Hand.ASK;
    private boolean through;
    private double @Nullable [] askedBefore;
    private @Nullable Line ruler;
    private @Nullable Line section;
    private @Nullable Line findingSection;
    private @Nullable BoardSnapshot finished;
    private final List<Line> pinned = new ArrayList<>();
    private @Nullable Finding chosenFinding;
    private boolean blind;
    private double timeS;
    private int side = 1;
    private WhatIf whatIf = WhatIf.NONE;
    private @Nullable Camera camera;
    private Look look = Look.still(true);
    private int chosen = -1;
    private double @Nullable [] asked;

    void listen(Consumer<Change> listener) {
        listeners.add(listener);
    }

    private void tell(Change change) {
        for (Consumer<Change> l : listeners) {
            l.accept(change);
        }
    }

    @Nullable
    JobScene scene() {
        return scene;
    }

    /** The scene that is drawn: swept again where the what-if asks for it. */
    @Nullable
    JobScene drawnScene() {
        return sweptScene != null ? sweptScene : scene;
    }

    /** The scene swept again for a what-if, or null to go back to the job's own. */
    void setSweptScene(@Nullable JobScene s, Swept as) {
        sweptFor = as;
        if (s != sweptScene) {
            sweptScene = s;
            refreshBoard();
        }
    }

    /** What the drawn scene was swept for. */
    Swept sweptFor() {
        return sweptFor;
    }

    /** The job's own board at this moment, without any what-if. */
    @Nullable
    BoardSnapshot baseBoard() {
        return baseBoard;
    }

    Compare compare() {
        return compare;
    }

    void setCompare(Compare c) {
        compare = c;
        tell(Change.VIEW);
    }

    /** Where the divider of the swipe stands, as a share of the picture's width. */
    double swipe() {
        return swipe;
    }

    void setSwipe(double share) {
        swipe = Math.max(0.02, Math.min(0.98, share));
        tell(Change.VIEW);
    }

    Hand hand() {
        return hand;
    }

    void setHand(Hand h) {
        hand = h;
        tell(Change.VIEW);
    }

    /** Whether the far side's cuts are drawn through the board. */
    boolean through() {
        return through;
    }

    void setThrough(boolean t) {
        through = t;
        tell(Change.VIEW);
    }

    /** The place that was asked before the last one, or null. */
    double @Nullable [] askedBefore() {
        return askedBefore;
    }

    @Nullable
    Line ruler() {
        return ruler;
    }

    void setRuler(@Nullable Line l) {
        ruler = l;
        tell(Change.CHOICE);
    }

    /** The dragged section, or null. */
    @Nullable
    Line section() {
        return section;
    }

    void setSection(@Nullable Line l) {
        section = l;
        tell(Change.CHOICE);
    }

    /** The section through the chosen finding's place, or null. */
    @Nullable
    Line findingSection() {
        return findingSection;
    }

    /** Cuts through the place of the chosen finding, until another place is asked. */
    void setFindingSection(@Nullable Line l) {
        findingSection = l;
        tell(Change.CHOICE);
    }

    /** The finished board of the side that is up, under the what-if, or null while it is made. */
    @Nullable
    BoardSnapshot finished() {
        BoardSnapshot b = finished;
        return b == null || b.side() != side ? null : asWhatIf(b);
    }

    List<Line> pinned() {
        return List.copyOf(pinned);
    }

    void pin(Line l) {
        pinned.add(l);
        tell(Change.CHOICE);
    }

    void unpin(int index) {
        pinned.remove(index);
        tell(Change.CHOICE);
    }

    /** The chosen finding: one of the job's, or one that only the what-if has; or null. */
    @Nullable
    Finding chosenFinding() {
        return chosenFinding;
    }

    @Nullable
    DryRunResult result() {
        return result;
    }

    @Nullable
    DryRunResult whatIfResult() {
        return whatIfResult;
    }

    /** Whether the job on the bench is the one before, read again. */
    boolean keptView() {
        return keptView;
    }

    /** What was found of the job before its files changed, until it is judged again; null where nothing was. */
    @Nullable
    DryRunResult earlier() {
        return earlier;
    }

    /** What is found of the job so far while its checks run; null before and after. */
    Catalogue.@Nullable Partial judging() {
        return judging;
    }

    /** What is found of the what-if so far while its checks run; null before and after. */
    Catalogue.@Nullable Partial whatIfJudging() {
        return whatIfJudging;
    }

    void setJudging(Catalogue.Partial partial) {
        if (result == null && !blind) {
            judging = partial;
            tell(Change.JUDGING);
        }
    }

    void setWhatIfJudging(Catalogue.Partial partial) {
        if (result != null && !whatIf.equals(WhatIf.NONE)) {
            whatIfJudging = partial;
            tell(Change.JUDGING);
        }
    }

    /** The snapshot to be drawn, on a blank as thick as the what-if has it. */
    @Nullable
    BoardSnapshot board() {
        BoardSnapshot b = board;
        return b == null ? null : asWhatIf(b);
    }

    /** A snapshot on the surface that is asked for now, though it was swept on another. */
    private record Raised(BoardSnapshot from, Swept wanted, Swept was, BoardSnapshot made) {}

    private BoardSnapshot asWhatIf(BoardSnapshot b) {
        double change = whatIf.thicknessChangeMm();
        BoardSnapshot r = raised(b);
        return change == 0 ? r : r.withThickness(Math.max(0.1, r.thicknessMm() + change));
    }

    /** Sweeping again takes a moment: until then the cuts that were swept are laid on the surface that is asked for. */
    private BoardSnapshot raised(BoardSnapshot b) {
        Swept wanted = whatIf.swept();
        Swept was = sweptFor;
        if (wanted.equals(was) || wanted.lies() && was.lies()) {
            return b;
        }
        for (Raised r : raised) {
            if (r.from() == b && r.wanted().equals(wanted) && r.was().equals(was)) {
                return r.made();
            }
        }
        BoardSnapshot made = b.withRaised((x, y) ->
                wanted.heightMm(x / b.widthMm(), y / b.heightMm()) - was.heightMm(x / b.widthMm(), y / b.heightMm()));
        if (raised.size() >= 2) {
            raised.remove(0);
        }
        raised.add(new Raised(b, wanted, was, made));
        return made;
    }

    double timeS() {
        return timeS;
    }

    int side() {
        return side;
    }

    WhatIf whatIf() {
        return whatIf;
    }

    @Nullable
    Camera camera() {
        return camera;
    }

    Look look() {
        return look;
    }

    int chosen() {
        return chosen;
    }

    double @Nullable [] asked() {
        return asked;
    }

    List<Finding> findings() {
        DryRunResult r = result;
        return r == null ? List.of() : r.document().findings();
    }

    /** Whether an exercise waits for its prediction: the blank alone is shown, before any cut. */
    boolean blind() {
        return blind;
    }

    void setBlind(boolean b) {
        blind = b;
    }

    /** A job on the bench; keepView keeps camera and moment, for a reload. */
    void setScene(@Nullable JobScene newScene, boolean keepView) {
        scene = newScene;
        keptView = keepView;
        earlier = !keepView || newScene == null ? null : result == null ? earlier : result;
        judging = null;
        whatIfJudging = null;
        result = null;
        whatIfResult = null;
        chosen = -1;
        asked = null;
        askedBefore = null;
        chosenFinding = null;
        findingSection = null;
        finished = null;
        board = null;
        baseBoard = null;
        sweptScene = null;
        sweptFor = Swept.NONE;
        raised.clear();
        if (!keepView) {
            compare = Compare.NONE;
            hand = Hand.ASK;
            ruler = null;
            section = null;
            pinned.clear();
            whatIf = WhatIf.NONE;
            undo.clear();
            redo.clear();
            camera = null;
            side = 1;
            timeS = newScene == null || blind ? 0 : newScene.endS();
        } else if (newScene != null) {
            timeS = Math.min(timeS, newScene.endS());
        }
        tell(Change.JOB);
        refreshBoard();
    }

    void setResult(@Nullable DryRunResult r) {
        result = r;
        judging = null;
        earlier = null;
        renumber(r);
        tell(Change.RESULT);
        tell(Change.CHOICE);
    }

    /** A finding that was chosen before all were found gets its number. */
    private void renumber(@Nullable DryRunResult r) {
        Finding f = chosenFinding;
        if (r == null || f == null || chosen >= 0) {
            return;
        }
        List<Finding> all = r.document().findings();
        for (int i = 0; i < all.size() && chosen < 0; i++) {
            if (FindingRows.key(all.get(i)).equals(FindingRows.key(f))) {
                chosen = i;
                chosenFinding = all.get(i);
            }
        }
    }

    void setWhatIfResult(@Nullable DryRunResult r) {
        whatIfResult = r;
        whatIfJudging = null;
        tell(Change.RESULT);
    }

    void setTime(double newTimeS) {
        JobScene s = scene;
        if (s == null || blind) {
            return;
        }
        double t = Math.max(0, Math.min(s.endS(), newTimeS));
        if (t == timeS) {
            return;
        }
        timeS = t;
        if (t < s.endS()) {
            side = s.sideAt(t);
        }
        tell(Change.TIME);
        refreshBoard();
    }

    void setSide(int newSide) {
        JobScene s = scene;
        if (s != null && newSide >= 1 && newSide <= s.job().sides().size() && newSide != side) {
            side = newSide;
            tell(Change.TIME);
            refreshBoard();
        }
    }

    void setWhatIf(WhatIf w) {
        if (!w.equals(whatIf)) {
            long now = System.nanoTime();
            // One drag of a slider is one change to undo; going back to the job is a change of its own.
            boolean back = w.equals(WhatIf.NONE);
            if (undo.isEmpty() || back || now - lastChange > 300_000_000L) {
                undo.add(whatIf);
            }
            lastChange = back ? now - 1_000_000_000L : now;
            redo.clear();
            if (undo.size() > 500) {
                undo.remove(0);
            }
            whatIf = w;
            tell(Change.CONDITIONS);
        }
    }

    void undoWhatIf() {
        move(undo, redo);
    }

    void redoWhatIf() {
        move(redo, undo);
    }

    private void move(List<WhatIf> from, List<WhatIf> to) {
        if (!from.isEmpty()) {
            to.add(whatIf);
            whatIf = from.remove(from.size() - 1);
            lastChange = 0;
            tell(Change.CONDITIONS);
        }
    }

    void setCamera(Camera c) {
        camera = c;
        tell(Change.VIEW);
    }

    void setLook(Look l) {
        look = l;
        tell(Change.VIEW);
    }

    void choose(int finding, @Nullable Finding which) {
        chosen = finding;
        chosenFinding = which;
        findingSection = null;
        tell(Change.CHOICE);
    }

    void ask(double xMm, double yMm) {
        askedBefore = asked;
        asked = new double[] {xMm, yMm};
        findingSection = null;
        tell(Change.CHOICE);
    }

    void askNothing() {
        asked = null;
        askedBefore = null;
        ruler = null;
        section = null;
        findingSection = null;
        hand = Hand.ASK;
        chosen = -1;
        chosenFinding = null;
        tell(Change.CHOICE);
    }

    /** The conditions in the order of the snapshot's runs. */
    BoardSnapshot.Conditions conditions(BoardSnapshot b) {
        double[] errors = new double[b.runs().size()];
        boolean[] absent = new boolean[b.runs().size()];
        for (int i = 0; i < errors.length; i++) {
            int run = b.runs().get(i).jobRun();
            errors[i] = whatIf.zErrorMm().getOrDefault(run, 0.0);
            absent[i] = whatIf.absent().contains(run);
        }
        double foil = Double.isNaN(whatIf.foilMm()) ? b.foilMm() : whatIf.foilMm();
        return new BoardSnapshot.Conditions(errors, whatIf.bowMm(), foil, whatIf.thicknessChangeMm(), absent);
    }

    private void refreshBoard() {
        JobScene job = scene;
        JobScene s = drawnScene();
        if (s == null || job == null) {
            tell(Change.BOARD);
            return;
        }
        int mine = wantedSnapshot.incrementAndGet();
        boolean hidden = blind;
        double t = hidden ? 0 : timeS;
        int wantedSide = side;
        snapshots.execute(() -> {
            if (mine != wantedSnapshot.get()) {
                return;
            }
            // Another cutter may take other times: the finished board of one is the finished board of the other.
            BoardSnapshot made = s.snapshot(t >= job.endS() ? s.endS() : t, wantedSide);
            BoardSnapshot base = s == job ? made : job.snapshot(t, wantedSide);
            BoardSnapshot end = hidden || made.timeS() >= s.endS() ? made : finishedOf(s, wantedSide);
            SwingUtilities.invokeLater(() -> {
                if (drawnScene() == s) {
                    board = made;
                    baseBoard = base;
                    finished = end;
                    tell(Change.BOARD);
                }
            });
        });
    }

    private @Nullable JobScene finishedScene;
    private @Nullable BoardSnapshot finishedMade;

    /** The finished board of a scene; made once. Called by the thread that makes the snapshots alone. */
    private BoardSnapshot finishedOf(JobScene s, int ofSide) {
        BoardSnapshot made = finishedMade;
        if (made == null || finishedScene != s || made.side() != ofSide) {
            made = s.snapshot(s.endS(), ofSide);
            finishedScene = s;
            finishedMade = made;
        }
        return made;
    }

    /** Moves to the next or previous pause, tool change or dwell. */
    void stepEvent(int step) {
        JobScene s = scene;
        if (s == null) {
            return;
        }
        double to = Double.NaN;
        for (foilproof.motion.MotionEvent e : s.ground().plan().events()) {
            boolean counts = e.durationS() >= RunStrip.LEAST_EVENT_S;
            if (counts && step > 0 && e.timeS() > timeS + 1e-3 && Double.isNaN(to)) {
                to = e.timeS();
            } else if (counts && step < 0 && e.timeS() < timeS - 1e-3) {
                to = e.timeS();
            }
        }
        if (!Double.isNaN(to)) {
            setTime(to);
        }
    }

    /** Moves to the start of the next or previous move. */
    void step(int blocks) {
        JobScene s = scene;
        if (s == null || s.ground().plan().segments().size() == 0) {
            return;
        }
        Segments all = s.ground().plan().segments();
        TipState tip = s.ground().plan().tipAt(timeS);
        int at = Math.max(0, Math.min(all.size() - 1, tip.segment()));
        int line = all.line(at);
        int program = all.program(at);
        int i = at;
        if (blocks > 0) {
            while (i < all.size() - 1 && all.line(i) == line && all.program(i) == program) {
                i++;
            }
            setTime(i == at ? s.endS() : all.startS(i) + 1e-4);
        } else {
            while (i > 0 && all.line(i) == line && all.program(i) == program) {
                i--;
            }
            int previous = all.line(i);
            while (i > 0 && all.line(i - 1) == previous && all.program(i - 1) == all.program(i)) {
                i--;
            }
            setTime(all.startS(i) + 1e-4);
        }
    }
}
