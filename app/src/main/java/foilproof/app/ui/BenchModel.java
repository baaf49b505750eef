package foilproof.app.ui;

import foilproof.app.viewer.BoardSnapshot;
import foilproof.app.viewer.Camera;
import foilproof.app.viewer.JobScene;
import foilproof.app.viewer.Look;
import foilproof.dryrun.DryRunResult;
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

    /** Conditions that act while a slider moves; runs by their index in the job. */
    record WhatIf(
            Map<Integer, Double> zErrorMm,
            double bowMm,
            double foilMm,
            double thicknessChangeMm,
            List<Integer> absent) {
        static final WhatIf NONE = new WhatIf(Map.of(), 0, Double.NaN, 0, List.of());

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
            return new WhatIf(m, bowMm, foilMm, thicknessChangeMm, absent);
        }

        WhatIf withAbsent(int run, boolean gone) {
            List<Integer> a = new ArrayList<>(absent);
            a.remove((Integer) run);
            if (gone) {
                a.add(run);
            }
            return new WhatIf(zErrorMm, bowMm, foilMm, thicknessChangeMm, a);
        }

        WhatIf withBow(double mm) {
            return new WhatIf(zErrorMm, mm, foilMm, thicknessChangeMm, absent);
        }

        WhatIf withFoil(double mm) {
            return new WhatIf(zErrorMm, bowMm, mm, thicknessChangeMm, absent);
        }

        WhatIf withThicknessChange(double mm) {
            return new WhatIf(zErrorMm, bowMm, foilMm, mm, absent);
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

    private @Nullable JobScene scene;
    private @Nullable DryRunResult result;
    private @Nullable DryRunResult whatIfResult;
    private @Nullable BoardSnapshot board;
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

    @Nullable
    DryRunResult result() {
        return result;
    }

    @Nullable
    DryRunResult whatIfResult() {
        return whatIfResult;
    }

    /** The snapshot to be drawn, on a blank as thick as the what-if has it. */
    @Nullable
    BoardSnapshot board() {
        BoardSnapshot b = board;
        double change = whatIf.thicknessChangeMm();
        return b == null || change == 0 ? b : b.withThickness(Math.max(0.1, b.thicknessMm() + change));
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

    /** A job on the bench; keepView keeps camera and moment, for a reload. */
    void setScene(@Nullable JobScene newScene, boolean keepView) {
        scene = newScene;
        result = null;
        whatIfResult = null;
        chosen = -1;
        asked = null;
        board = null;
        if (!keepView) {
            whatIf = WhatIf.NONE;
            undo.clear();
            camera = null;
            side = 1;
            timeS = newScene == null ? 0 : newScene.endS();
        } else if (newScene != null) {
            timeS = Math.min(timeS, newScene.endS());
        }
        tell(Change.JOB);
        refreshBoard();
    }

    void setResult(@Nullable DryRunResult r) {
        result = r;
        tell(Change.RESULT);
        tell(Change.CHOICE);
    }

    void setWhatIfResult(@Nullable DryRunResult r) {
        whatIfResult = r;
        tell(Change.RESULT);
    }

    void setTime(double newTimeS) {
        JobScene s = scene;
        if (s == null) {
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
            undo.add(whatIf);
            if (undo.size() > 500) {
                undo.remove(0);
            }
            whatIf = w;
            tell(Change.CONDITIONS);
        }
    }

    void undoWhatIf() {
        if (!undo.isEmpty()) {
            whatIf = undo.remove(undo.size() - 1);
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

    void choose(int finding) {
        chosen = finding;
        tell(Change.CHOICE);
    }

    void ask(double xMm, double yMm) {
        asked = new double[] {xMm, yMm};
        tell(Change.CHOICE);
    }

    void askNothing() {
        asked = null;
        chosen = -1;
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
        JobScene s = scene;
        if (s == null) {
            tell(Change.BOARD);
            return;
        }
        int mine = wantedSnapshot.incrementAndGet();
        double t = timeS;
        int wantedSide = side;
        snapshots.execute(() -> {
            if (mine != wantedSnapshot.get()) {
                return;
            }
            BoardSnapshot made = s.snapshot(t, wantedSide);
            SwingUtilities.invokeLater(() -> {
                if (scene == s) {
                    board = made;
                    tell(Change.BOARD);
                }
            });
        });
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
