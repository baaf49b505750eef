package foilproof.app.ui;

import foilproof.app.viewer.BoardSnapshot;
import foilproof.app.viewer.Camera;
import foilproof.app.viewer.JobScene;
import foilproof.app.viewer.Look;
import foilproof.app.viewer.OverlayPainter;
import foilproof.bench.Face;
import foilproof.bench.Side;
import foilproof.findings.Finding;
import java.awt.BorderLayout;
import java.awt.Graphics2D;
import java.awt.Toolkit;
import java.awt.datatransfer.StringSelection;
import java.awt.event.ActionEvent;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Consumer;
import javax.swing.AbstractAction;
import javax.swing.AbstractButton;
import javax.swing.Action;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JDialog;
import javax.swing.JFrame;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JRootPane;
import javax.swing.JScrollPane;
import javax.swing.JTable;
import javax.swing.JTextField;
import javax.swing.JToggleButton;
import javax.swing.KeyStroke;
import javax.swing.RowFilter;
import javax.swing.Timer;
import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;
import javax.swing.table.DefaultTableModel;
import javax.swing.table.TableRowSorter;
import org.jspecify.annotations.Nullable;

/** Everything that a key or a button does, each with its words: the list of keys is made from here. */
final class BenchActions {
    private static final double[] SPEEDS = {1, 2, 5, 10, 20, 50, 100};
    private static final double[] Z_FACTORS = {1, 5, 20, 50};
    /** How long before a finding's moment the run is shown, seconds: the cutter has not yet done the damage. */
    private static final double BEFORE_S = 0.05;

    /** How much more than the blank is shown straight on. */
    private static final double AIR = 1.14;

    /** What the window itself does for a key. */
    interface Window {
        void open();

        void savePicture();

        void screenshot();

        void report();

        void saveCopy();

        void practice();

        /** One step larger or smaller. */
        void textSize(int step);
    }

    private record Key(String stroke, String shown, String words, boolean boardOnly, Runnable work) {}

    private final BenchModel model;
    private final BoardView board;
    private final JFrame frame;
    private final List<Key> keys = new ArrayList<>();
    private final Timer play;
    private final Timer flight;
    private final Timer turning;
    private int turnTo = 1;
    private boolean turnAboutX;
    private long turnStart;
    private int speed = 3;
    private long lastNanos;
    private @Nullable Camera flightFrom;
    private @Nullable Camera flightTo;
    private long flightStart;
    private final JLabel playing = new JLabel(" ");
    private final JButton run = new JButton("Play  Space");
    private final Map<String, AbstractButton> lasting = new LinkedHashMap<>();
    private Consumer<Integer> showTab = i -> {};

    BenchActions(BenchModel model, BoardView board, JFrame frame) {
        this.model = model;
        this.board = board;
        this.frame = frame;
        play = new Timer(33, e -> tick());
        flight = new Timer(25, e -> fly());
        turning = new Timer(30, e -> turn());
    }

    /** Who shows the tabs at the right: 0 conditions, 1 the answer. */
    void onTab(Consumer<Integer> show) {
        showTab = show;
    }

    /** Stops all that moves. */
    void stop() {
        play.stop();
        flight.stop();
        turning.stop();
    }

    private void key(String stroke, String shown, String words, Runnable work) {
        keys.add(new Key(stroke, shown, words, false, work));
    }

    private void boardKey(String stroke, String shown, String words, Runnable work) {
        keys.add(new Key(stroke, shown, words, true, work));
    }

    void attach(
            JRootPane root,
            FindingsPanel findings,
            AnswerPanel answer,
            JobLoader loader,
            Window window,
            Consumer<Boolean> theme) {
        key("F1", "F1", "this list of keys", this::showKeys);
        key("typed ?", "?", "this list of keys", this::showKeys);
        key("typed o", "O", "open a job, a folder or a program", window::open);
        key("F5", "F5", "read the job again, keeping view and moment", loader::reload);
        key("typed 1", "1", "look straight from above", () -> view(Camera::top));
        key("typed 2", "2", "look at a slant", () -> view(Camera::oblique));
        key("typed 3", "3", "look at the underside", () -> view(Camera::bottom));
        key("typed 4", "4", "the solder side, held in the hand, pin 1 marked", () -> inHand(Face.BOTTOM));
        key("typed 5", "5", "the component side, held in the hand", () -> inHand(Face.TOP));
        key("typed f", "F", "the whole blank", this::whole);
        key("typed z", "Z", "draw Z 1, 5, 20, 50 times as high", this::nextFactor);
        key("typed c", "C", "colours: material, depth, foil left, margin, tool, line, time, width", this::nextPaint);
        key(
                "typed l",
                "L",
                "the blank on or off the spoil board",
                () -> model.setLook(model.look().withLifted(!model.look().lifted())));
        key("typed t", "T", "turn to the next side of the blank", this::nextSide);
        key("typed d", "D", "dark or light", () -> theme.accept(!model.look().dark()));
        key("typed n", "N", "next finding", () -> nextFinding(1));
        key("typed p", "P", "previous finding", () -> nextFinding(-1));
        key("typed .", ".", "next tool change, stop or dwell", () -> model.stepEvent(1));
        key("typed ,", ",", "previous tool change, stop or dwell", () -> model.stepEvent(-1));
        key("typed u", "U", "all findings again: nothing typed, nothing chosen", findings::clearFilter);
        key("typed b", "B", "conditions back to the job", () -> model.setWhatIf(BenchModel.WhatIf.NONE));
        key("control Y", "Ctrl+Y", "do again what was undone", model::redoWhatIf);
        handKeys();
        key("typed w", "W", "the conditions", () -> showTab.accept(0));
        key("typed y", "Y", "study: feeds, zero, order, a second go, every swap, the odds", () -> showTab.accept(2));
        key("typed q", "Q", "what the board answers", () -> showTab.accept(1));
        key("typed m", "M", "type a groove's width as measured under the microscope", () -> {
            showTab.accept(1);
            answer.measure();
        });
        key("typed k", "K", "pin the section, to be compared", this::pin);
        key("typed g", "G", "the far side's cuts through the board", () -> model.setThrough(!model.through()));
        key("control Z", "Ctrl+Z", "undo the last change of a condition", model::undoWhatIf);
        key("typed /", "/", "filter the findings", findings::search);
        key("control F", "Ctrl+F", "filter the findings", findings::search);
        key("typed +", "+", "play faster", () -> setSpeed(speed + 1));
        key("typed -", "-", "play slower", () -> setSpeed(speed - 1));
        key("typed e", "E", "to the end of the job", () -> model.setTime(Double.MAX_VALUE));
        key("typed a", "A", "to the start of the job", () -> model.setTime(0));
        habitKeys(findings, window);
        boardKey("control C", "Ctrl+C", "copy what the board answered", () -> copy(answer.shownText()));
        key("control shift C", "Ctrl+Shift+C", "copy where the job stands, in words", this::copyState);
        key("ESCAPE", "Esc", "forget the chosen finding and place", model::askNothing);
        boardKey("SPACE", "Space", "play and pause", this::playPause);
        boardKey("RIGHT", "Right", "one block on", () -> model.step(1));
        boardKey("LEFT", "Left", "one block back", () -> model.step(-1));
        boardKey("shift RIGHT", "Shift+Right", "one second on", () -> model.setTime(model.timeS() + 1));
        boardKey("shift LEFT", "Shift+Left", "one second back", () -> model.setTime(model.timeS() - 1));
        viewKeys();
        for (Key k : keys) {
            JComponent to = k.boardOnly() ? board : root;
            int when = k.boardOnly() ? JComponent.WHEN_FOCUSED : JComponent.WHEN_IN_FOCUSED_WINDOW;
            to.getInputMap(when).put(KeyStroke.getKeyStroke(k.stroke()), k.stroke());
            to.getActionMap().put(k.stroke(), action(k.work()));
        }
    }

    /** Keys for what a drag on the board means. */
    private void handKeys() {
        key("typed v", "V", "job and what-if: what-if alone, swipe, difference", this::nextCompare);
        key(
                "typed r",
                "R",
                "ruler: drag from point to point; again: back to asking",
                () -> hand(BenchModel.Hand.RULER));
        key(
                "typed x",
                "X",
                "section: drag a line to cut the board; again: back to asking",
                () -> hand(BenchModel.Hand.SECTION));
        key(
                "typed j",
                "J",
                "move the job on its blank: drag, Ctrl+drag turns; again: back to asking",
                () -> hand(BenchModel.Hand.ZERO));
    }

    /** Keys that write, accept and practise. */
    private void habitKeys(FindingsPanel findings, Window window) {
        key("typed s", "S", "save the board's picture as PNG", window::savePicture);
        key("control S", "Ctrl+S", "a picture of the whole window, written at once", window::screenshot);
        key("control R", "Ctrl+R", "write the report into a folder", window::report);
        key("control shift S", "Ctrl+Shift+S", "save a copy of this job in a folder", window::saveCopy);
        key("typed i", "I", "accept the chosen finding, because ...", findings::accept);
        key("typed h", "H", "practice: the exercises", window::practice);
        key("control EQUALS", "Ctrl+=", "larger text", () -> window.textSize(1));
        key("control MINUS", "Ctrl+-", "smaller text", () -> window.textSize(-1));
    }

    /** Keys that move the view; they act while the board has the focus. */
    private void viewKeys() {
        boardKey("PAGE_UP", "Page Up", "nearer", () -> board.zoomAt(board.getWidth() / 2, board.getHeight() / 2, 0.8));
        boardKey(
                "PAGE_DOWN",
                "Page Down",
                "farther",
                () -> board.zoomAt(board.getWidth() / 2, board.getHeight() / 2, 1.25));
        boardKey("UP", "Up", "turn the view up", () -> model.setCamera(board.orbited(board.camera(), 0, 12)));
        boardKey("DOWN", "Down", "turn the view down", () -> model.setCamera(board.orbited(board.camera(), 0, -12)));
        boardKey("typed [", "[", "turn the view left", () -> model.setCamera(board.orbited(board.camera(), 14, 0)));
        boardKey("typed ]", "]", "turn the view right", () -> model.setCamera(board.orbited(board.camera(), -14, 0)));
        boardKey("control LEFT", "Ctrl+Left", "move the view left", () -> pan(40, 0));
        boardKey("control RIGHT", "Ctrl+Right", "move the view right", () -> pan(-40, 0));
        boardKey("control UP", "Ctrl+Up", "move the view up", () -> pan(0, 40));
        boardKey("control DOWN", "Ctrl+Down", "move the view down", () -> pan(0, -40));
        boardKey("ENTER", "Enter", "ask what lies in the middle of the picture", () -> {
            Camera c = board.camera();
            model.ask(c.xMm(), c.yMm());
        });
    }

    private static Action action(Runnable work) {
        return new AbstractAction() {
            private static final long serialVersionUID = 1L;

            @Override
            public void actionPerformed(ActionEvent e) {
                work.run();
            }
        };
    }

    private void pan(double dx, double dy) {
        model.setCamera(board.panned(board.camera(), dx, dy));
    }

    /** The bar over the board, in groups: where to look from, what is shown, what is asked, the run. */
    JComponent bar() {
        WrapPanel p = new WrapPanel();
        p.setName("bar");
        String[] groups = {"123FTL45", "CZGVD", "RXJ"};
        for (String group : groups) {
            for (String shown : group.split("")) {
                p.add(button(shown));
            }
            p.add(new WrapPanel.Gap());
        }
        run.setName("play");
        run.setToolTipText("play and pause (Space); + and - change the speed");
        small(run);
        run.addActionListener(e -> playPause());
        p.add(run);
        playing.setName("playing");
        playing.setVisible(false);
        p.add(playing);
        model.listen(c -> follow());
        follow();
        return p;
    }

    private AbstractButton button(String shown) {
        Key k = keys.stream().filter(x -> x.shown().equals(shown)).findFirst().orElseThrow();
        boolean lasts = "LGVRXJ".contains(shown);
        AbstractButton b = lasts ? new JToggleButton(labels(shown)) : new JButton(labels(shown));
        b.setText(labels(shown) + "  " + shown);
        b.setName("do " + shown);
        b.setToolTipText(k.words() + " (" + shown + ")");
        b.getAccessibleContext().setAccessibleDescription(k.words());
        small(b);
        b.addActionListener(e -> {
            k.work().run();
            follow();
        });
        if (lasts) {
            lasting.put(shown, b);
        }
        return b;
    }

    private static void small(AbstractButton b) {
        b.putClientProperty("FlatLaf.styleClass", "medium");
        b.setMargin(new java.awt.Insets(1, 4, 1, 4));
        b.setRequestFocusEnabled(false);
    }

    /** Buttons of what lasts show whether it is on. */
    private void follow() {
        lasting.forEach((shown, b) -> b.setSelected(
                switch (shown) {
                    case "L" -> model.look().lifted();
                    case "G" -> model.through();
                    case "V" -> model.compare() != BenchModel.Compare.NONE;
                    case "R" -> model.hand() == BenchModel.Hand.RULER;
                    case "J" -> model.hand() == BenchModel.Hand.ZERO;
                    default -> model.hand() == BenchModel.Hand.SECTION;
                }));
    }

    private static String labels(String shown) {
        return switch (shown) {
            case "1" -> "Above";
            case "2" -> "Slant";
            case "3" -> "Below";
            case "4" -> "Solder";
            case "5" -> "Parts";
            case "F" -> "Whole";
            case "T" -> "Turn";
            case "L" -> "Lift";
            case "Z" -> "Z high";
            case "R" -> "Ruler";
            case "X" -> "Section";
            case "J" -> "Move job";
            case "V" -> "Compare";
            case "G" -> "Far side";
            case "C" -> "Colours";
            default -> "Dark";
        };
    }

    /** The solder side or the component side as the hand holds the board: off the spoil board, straight on. */
    private void inHand(Face face) {
        JobScene s = model.scene();
        if (s == null) {
            return;
        }
        int found = 0;
        for (Side side : s.job().sides()) {
            found = side.face() == face ? side.number() : found;
        }
        model.setLook(model.look().withLifted(true));
        if (found > 0) {
            model.setSide(found);
        }
        view(found > 0 ? Camera::top : Camera::bottom);
    }

    private interface Preset {
        Camera of(BoardSnapshot board, int width, int height);
    }

    private void view(Preset preset) {
        BoardSnapshot b = model.board();
        if (b != null) {
            double z = board.camera().zFactor();
            Camera to = preset.of(b, Math.max(1, board.getWidth()), Math.max(1, board.getHeight()));
            // Straight on, the words and the legend would stand on the blank: a little air round it.
            flyTo((to.parallel() ? to.showing(to.heightMm() * AIR) : to).withZFactor(z));
        }
    }

    private void whole() {
        Camera c = board.camera();
        BoardSnapshot b = model.board();
        if (b != null) {
            Camera t = Camera.oblique(b, Math.max(1, board.getWidth()), Math.max(1, board.getHeight()));
            flyTo(c.at(b.widthMm() / 2, b.heightMm() / 2, c.fromBelow() ? -b.thicknessMm() : 0)
                    .showing(t.heightMm() * 1.1));
        }
    }

    private void nextFactor() {
        Camera c = board.camera();
        double next = Z_FACTORS[0];
        for (double f : Z_FACTORS) {
            if (f > c.zFactor() + 1e-9) {
                next = f;
                break;
            }
        }
        model.setCamera(c.withZFactor(next));
    }

    private void nextCompare() {
        BenchModel.Compare[] all = BenchModel.Compare.values();
        model.setCompare(all[(model.compare().ordinal() + 1) % all.length]);
    }

    private void hand(BenchModel.Hand h) {
        model.setHand(model.hand() == h ? BenchModel.Hand.ASK : h);
    }

    private void pin() {
        BenchModel.Line l = model.section() != null ? model.section() : model.findingSection();
        if (l != null) {
            model.pin(l);
        }
    }

    private void nextPaint() {
        Look.Paint[] all = Look.Paint.values();
        model.setLook(model.look().withPaint(all[(model.look().paint().ordinal() + 1) % all.length]));
    }

    private void nextSide() {
        JobScene s = model.scene();
        if (s != null) {
            int next = model.side() % s.job().sides().size() + 1;
            if (next == model.side() || turning.isRunning()) {
                return;
            }
            turnTo = next;
            turnAboutX = s.job().sides().get(Math.max(next, model.side()) - 1).turned() == foilproof.bench.Turn.ABOUT_X;
            turnStart = System.nanoTime();
            turning.start();
        }
    }

    /** The blank goes over about its declared axis, then lies as the other side. */
    private void turn() {
        BoardSnapshot b = model.board();
        double f = (System.nanoTime() - turnStart) / 0.7e9;
        if (b == null || f >= 1) {
            turning.stop();
            if (b != null) {
                model.setCamera(board.camera().turning(b, turnAboutX, 0));
            }
            model.setSide(turnTo);
            return;
        }
        model.setCamera(board.camera().turning(b, turnAboutX, Math.PI * f * f * (3 - 2 * f)));
    }

    private void nextFinding(int step) {
        int n = model.findings().size();
        if (n > 0) {
            flyTo(model.chosen() < 0 ? (step > 0 ? 0 : n - 1) : Math.floorMod(model.chosen() + step, n));
        }
    }

    /** Chooses a finding, goes to the moment just before it and flies there. */
    void flyTo(int index) {
        List<Finding> all = model.findings();
        if (index < 0 || index >= all.size()) {
            return;
        }
        flyTo(index, all.get(index));
    }

    /** Flies to a finding of the job (its index) or to one that only the what-if has (-1). */
    void flyTo(int index, Finding f) {
        model.choose(index, f);
        if (f.timeS() != null) {
            model.setTime(f.timeS() - BEFORE_S);
        }
        if (f.side() != null) {
            model.setSide(f.side());
        }
        double[] at = f.atMm();
        if (at != null) {
            Camera c = board.camera();
            double wide = 4;
            double[] box = f.boxMm();
            if (box != null) {
                wide = Math.max(3, 1.8 * Math.max(box[2] - box[0], box[3] - box[1]));
            }
            if (c.fromBelow() && model.board() != null) {
                c = Camera.oblique(model.board(), Math.max(1, board.getWidth()), Math.max(1, board.getHeight()));
            }
            flyTo(c.at(at[0], at[1], 0).showing(Math.min(wide, 60)));
            model.ask(at[0], at[1]);
            JobScene s = model.drawnScene();
            if (s != null) {
                model.setFindingSection(AcrossFinding.line(s, f, model.side()));
            }
        }
    }

    private void flyTo(Camera to) {
        flightFrom = board.camera();
        flightTo = to;
        flightStart = System.nanoTime();
        if (flightFrom.fromBelow() != to.fromBelow()) {
            flight.stop();
            model.setCamera(to);
            return;
        }
        flight.restart();
    }

    private void fly() {
        Camera a = flightFrom;
        Camera b = flightTo;
        if (a == null || b == null) {
            flight.stop();
            return;
        }
        double f = Math.min(1, (System.nanoTime() - flightStart) / 0.35e9);
        if (f >= 1) {
            flight.stop();
            model.setCamera(b);
            return;
        }
        double s = f * f * (3 - 2 * f);
        double turn = Math.IEEEremainder(b.azimuthRad() - a.azimuthRad(), 2 * Math.PI);
        model.setCamera(new Camera(
                a.xMm() + (b.xMm() - a.xMm()) * s,
                a.yMm() + (b.yMm() - a.yMm()) * s,
                a.zMm() + (b.zMm() - a.zMm()) * s,
                a.azimuthRad() + turn * s,
                a.elevationRad() + (b.elevationRad() - a.elevationRad()) * s,
                a.heightMm() * Math.pow(b.heightMm() / a.heightMm(), s),
                false,
                a.zFactor() + (b.zFactor() - a.zFactor()) * s));
    }

    private void playPause() {
        JobScene s = model.scene();
        if (s == null) {
            return;
        }
        if (play.isRunning()) {
            stopPlaying();
            return;
        }
        if (model.timeS() >= s.endS() - 1e-6) {
            model.setTime(0);
        }
        lastNanos = System.nanoTime();
        play.start();
        setSpeed(speed);
    }

    private void setSpeed(int index) {
        speed = Math.max(0, Math.min(SPEEDS.length - 1, index));
        if (play.isRunning()) {
            playing.setVisible(true);
            playing.setText(String.format(Locale.ROOT, "%.0fx  (+ / -)", SPEEDS[speed]));
            run.setText("Pause  Space");
        }
    }

    private void tick() {
        JobScene s = model.scene();
        long now = System.nanoTime();
        double dt = (now - lastNanos) * 1e-9;
        lastNanos = now;
        if (s == null) {
            play.stop();
            return;
        }
        model.setTime(model.timeS() + dt * SPEEDS[speed]);
        if (model.timeS() >= s.endS()) {
            stopPlaying();
        }
    }

    private void stopPlaying() {
        play.stop();
        playing.setVisible(false);
        run.setText("Play  Space");
    }

    private static void copy(String words) {
        Toolkit.getDefaultToolkit().getSystemClipboard().setContents(new StringSelection(words), null);
    }

    private void copyState() {
        BoardSnapshot b = model.board();
        if (b != null) {
            String words = b.job() + "\n" + OverlayPainter.lookingAt(b, board.camera()) + "\n" + b.stateWords();
            Toolkit.getDefaultToolkit().getSystemClipboard().setContents(new StringSelection(words), null);
        }
    }

    /** The board's picture with its words, as it is shown; null before there is one. */
    @Nullable
    BufferedImage picture() {
        BufferedImage shown = board.shownImage();
        var q = board.shownRequest();
        if (shown == null || q == null) {
            return null;
        }
        BufferedImage image = new BufferedImage(shown.getWidth(), shown.getHeight(), BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        g.drawImage(shown, 0, 0, null);
        new OverlayPainter(q, image.getWidth(), image.getHeight(), Px.scale() * image.getWidth() / board.getWidth())
                .paint(g);
        g.dispose();
        return image;
    }

    private void showKeys() {
        JDialog dialog = new JDialog(frame, "Keys", false);
        DefaultTableModel rows = new DefaultTableModel(new Object[] {"Key", "Does"}, 0) {
            private static final long serialVersionUID = 1L;

            @Override
            public boolean isCellEditable(int row, int column) {
                return false;
            }
        };
        for (Key k : keys) {
            rows.addRow(new Object[] {k.shown(), k.words() + (k.boardOnly() ? " (board has the focus)" : "")});
        }
        rows.addRow(new Object[] {"Drag", "turn the view"});
        rows.addRow(new Object[] {"Shift+drag, right drag", "move the view"});
        rows.addRow(new Object[] {"Wheel", "nearer and farther, at the pointer"});
        rows.addRow(new Object[] {"Click", "what is here, who cut it"});
        JTable table = new JTable(rows);
        table.getColumnModel().getColumn(0).setMaxWidth(190);
        table.getColumnModel().getColumn(0).setPreferredWidth(160);
        TableRowSorter<DefaultTableModel> sorter = new TableRowSorter<>(rows);
        table.setRowSorter(sorter);
        table.setName("keys");
        JTextField search = new JTextField();
        search.setName("search the keys");
        search.putClientProperty("JTextField.placeholderText", "Search the keys");
        search.getDocument().addDocumentListener(new DocumentListener() {
            private void narrow() {
                String words = java.util.regex.Pattern.quote(search.getText().strip());
                sorter.setRowFilter(RowFilter.regexFilter("(?i)" + words));
            }

            @Override
            public void insertUpdate(DocumentEvent e) {
                narrow();
            }

            @Override
            public void removeUpdate(DocumentEvent e) {
                narrow();
            }

            @Override
            public void changedUpdate(DocumentEvent e) {
                narrow();
            }
        });
        JPanel p = new JPanel(new BorderLayout(0, 8));
        p.setBorder(Px.pad(10, 10, 10, 10));
        p.add(search, BorderLayout.NORTH);
        p.add(new JScrollPane(table));
        dialog.setContentPane(p);
        dialog.getRootPane()
                .registerKeyboardAction(
                        e -> dialog.dispose(), KeyStroke.getKeyStroke("ESCAPE"), JComponent.WHEN_IN_FOCUSED_WINDOW);
        dialog.setSize(Px.size(760, 600));
        dialog.setLocationRelativeTo(frame);
        dialog.setVisible(true);
    }
}
