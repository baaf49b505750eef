package foilproof.app.ui;

import com.formdev.flatlaf.FlatLaf;
import foilproof.app.practice.Practice;
import foilproof.app.viewer.OffscreenRenderer;
import foilproof.bench.DiskFiles;
import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.findings.Finding;
import foilproof.source.InputException;
import java.awt.BorderLayout;
import java.awt.CardLayout;
import java.awt.Dimension;
import java.awt.GridBagLayout;
import java.awt.Toolkit;
import java.awt.datatransfer.DataFlavor;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.prefs.Preferences;
import javax.swing.BorderFactory;
import javax.swing.Box;
import javax.swing.BoxLayout;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JFileChooser;
import javax.swing.JFrame;
import javax.swing.JLabel;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.JProgressBar;
import javax.swing.JSplitPane;
import javax.swing.JTabbedPane;
import javax.swing.JTextArea;
import javax.swing.SwingUtilities;
import javax.swing.TransferHandler;
import javax.swing.WindowConstants;
import org.jspecify.annotations.Nullable;

/** The bench window: one board in the middle, findings at its left, conditions at its right, the run strip below. */
final class BenchWindow {
    final BenchModel model = new BenchModel();
    private final OffscreenRenderer renderer = new OffscreenRenderer();
    final JFrame frame = new JFrame("Foilproof");
    final BoardView board;
    private final FindingsPanel findings;
    private final AnswerPanel answer;
    private final FileWatch watch;
    private final SwapStudy swaps = new SwapStudy(model);
    private @Nullable JobSource source;
    private @Nullable Path folder;
    private final JobLoader loader;
    private final JPanel cards = new JPanel(new CardLayout());
    private final JTextArea message = new JTextArea();
    private final JLabel busy = new JLabel(" ");
    private final JLabel told = new JLabel(" ");
    private final Saving saving = new Saving(frame, preferences(), this::tell);
    private final JProgressBar progress = new JProgressBar(0, 1000);
    private final JButton cancel = new JButton("Stop");
    /** Gives both sides the width that their text needs. */
    private Runnable sides = () -> {};

    private final JTabbedPane left = new JTabbedPane();
    private final PracticePanel practice = new PracticePanel(model, new PracticeHost());

    BenchWindow(ReadOptions options) {
        renderer.warmUp();
        board = new BoardView(model, renderer);
        BenchActions actions = new BenchActions(model, board, frame);
        findings = new FindingsPanel(model, actions::flyTo);
        answer = new AnswerPanel(model);
        loader = new JobLoader(model, options, new JobLoader.Teller() {
            @Override
            public void working(@Nullable String what, double fraction) {
                busy.setText(what == null ? "" : what + " ...");
                progress.setVisible(what != null);
                cancel.setVisible(what != null);
                progress.setValue((int) (fraction * 1000));
            }

            @Override
            public void failed(String words) {
                showMessage(words);
            }

            @Override
            public void told(String words) {
                tell(words);
            }
        });
        watch = new FileWatch(model, loader::reload);
        findings.onAccept(f -> accept(f, options));
        actions.attach(frame.getRootPane(), findings, answer, loader, new Doing(actions), this::setDark);
        build(actions);
    }

    /** Opens the window and waits until it is closed. */
    static void openAndWait(@Nullable JobSource job, ReadOptions options, boolean exercises) {
        CountDownLatch closed = new CountDownLatch(1);
        SwingUtilities.invokeLater(() -> {
            try {
                begin(job, options, closed, exercises);
            } catch (RuntimeException e) {
                closed.countDown();
                throw e;
            }
        });
        try {
            closed.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static void begin(@Nullable JobSource job, ReadOptions options, CountDownLatch closed, boolean exercises) {
        boolean dark = preferences().getBoolean("dark", true);
        Px.choose(preferences().getDouble("scale", 0));
        Theme.setUp(dark);
        BenchWindow w = new BenchWindow(options);
        w.model.setLook(w.model.look().withDark(dark));
        w.frame.addWindowListener(new WindowAdapter() {
            @Override
            public void windowClosed(WindowEvent e) {
                closed.countDown();
            }
        });
        w.placeAsBefore();
        w.open(job);
        if (exercises) {
            w.practice();
        }
    }

    private void placeAsBefore() {
        String[] was = preferences().get("window", "").split(" ");
        Dimension screen = Toolkit.getDefaultToolkit().getScreenSize();
        try {
            int width = Math.min(screen.width, Integer.parseInt(was[0]));
            int height = Math.min(screen.height, Integer.parseInt(was[1]));
            frame.setSize(width, height);
            frame.setLocationRelativeTo(null);
        } catch (NumberFormatException | ArrayIndexOutOfBoundsException e) {
            // Never opened before: the size that was built in stays.
        }
        frame.addWindowListener(new WindowAdapter() {
            @Override
            public void windowClosing(WindowEvent e) {
                preferences().put("window", frame.getWidth() + " " + frame.getHeight());
            }
        });
    }

    private static Preferences preferences() {
        return Preferences.userRoot().node("foilproof/bench");
    }

    private void setDark(boolean dark) {
        preferences().putBoolean("dark", dark);
        Theme.setUp(dark);
        FlatLaf.updateUI();
        model.setLook(model.look().withDark(dark));
    }

    void open(@Nullable JobSource job) {
        frame.setVisible(true);
        if (job != null && job.files() instanceof DiskFiles d) {
            // As if it had been opened here: its files are watched, findings are accepted beside it, it is remembered.
            Path at = job.isJobFile() ? d.folder() : d.folder().resolve(job.file());
            if (!resumed(at)) {
                put(job, d.folder());
            }
            remember(at);
        } else if (job != null) {
            put(job, null);
        } else {
            showCard("welcome");
        }
    }

    /** Puts a job on the bench; its folder where it lies on disk. */
    private void put(JobSource job, @Nullable Path in) {
        model.setBlind(false);
        source = job;
        folder = in;
        watch.watch(in);
        loader.load(job, false);
    }

    /** Says something in the status line, until something else is said. */
    void tell(String words) {
        told.setText(words);
        told.setToolTipText(words.isBlank() ? null : words);
    }

    private void accept(@Nullable Finding f, ReadOptions options) {
        JobSource from = source;
        var scene = model.scene();
        if (from == null || scene == null || f == null) {
            tell("Choose a finding of the job first: it is accepted for a reason.");
            return;
        }
        Path in = folder;
        if (in == null) {
            in = copyFirst(from, scene.job());
            from = in == null ? null : onDisk(in);
            if (in == null || from == null) {
                return;
            }
        }
        String done = AcceptDialog.ask(frame, from, scene.job(), in, options.settings(), f);
        tell(done.isEmpty() ? " " : done);
        if (folder == null) {
            // The copy goes on the bench in the sample's place, accepted or not.
            put(from, in);
            remember(in);
        } else if (done.startsWith("Accepted")) {
            loader.reload();
        }
    }

    /** A packed sample is never written to: its copy on disk is. */
    private @Nullable Path copyFirst(JobSource from, foilproof.bench.Job job) {
        int go = JOptionPane.showConfirmDialog(
                frame,
                "This sample is packed into the program. A finding is accepted beside a job on disk:\nsave a copy of the"
                        + " sample in a folder of yours first?",
                "Save a copy first",
                JOptionPane.OK_CANCEL_OPTION);
        return go == JOptionPane.OK_OPTION ? saving.saveCopy(from, job.inputs(), job.name()) : null;
    }

    private @Nullable JobSource onDisk(Path in) {
        try {
            return DiskFiles.source(in);
        } catch (InputException e) {
            tell("The copy cannot be read: " + JobLoader.words(e).strip());
            return null;
        }
    }

    /** What keys ask of the window. */
    private final class Doing implements BenchActions.Window {
        private final BenchActions actions;

        Doing(BenchActions actions) {
            this.actions = actions;
        }

        private String name() {
            var s = model.scene();
            return s == null ? "bench" : s.job().name();
        }

        @Override
        public void open() {
            chooseFile();
        }

        @Override
        public void savePicture() {
            java.awt.image.BufferedImage image = actions.picture();
            if (image == null) {
                tell("There is no picture of a board yet.");
                return;
            }
            Path file = saving.askPicture(name(), folder);
            if (file != null) {
                saving.write(image, file);
            }
        }

        @Override
        public void screenshot() {
            saving.screenshot(frame.getContentPane(), name(), folder);
        }

        @Override
        public void report() {
            saving.report(model.result(), folder);
        }

        @Override
        public void saveCopy() {
            JobSource from = source;
            var s = model.scene();
            if (from == null || s == null) {
                tell("There is no job on the bench to be copied.");
                return;
            }
            Path made = saving.saveCopy(from, s.job().inputs(), s.job().name());
            JobSource copy = made == null ? null : onDisk(made);
            if (made != null && copy != null) {
                put(copy, made);
                remember(made);
            }
        }

        @Override
        public void practice() {
            BenchWindow.this.practice();
        }

        @Override
        public void textSize(int step) {
            double before = Px.scale();
            double now = Math.max(0.75, Math.min(4, before + 0.25 * step));
            preferences().putDouble("scale", now);
            Px.choose(now);
            Theme.setUp(model.look().dark());
            FlatLaf.updateUI();
            Px.rescale(frame.getContentPane(), now / before);
            frame.setMinimumSize(least());
            sides.run();
            frame.getContentPane().revalidate();
            board.redraw();
            tell(String.format(java.util.Locale.ROOT, "Text %.0f %% (Ctrl+= larger, Ctrl+- smaller).", 100 * now));
        }
    }

    private static Dimension least() {
        Dimension screen = Toolkit.getDefaultToolkit().getScreenSize();
        Dimension d = Px.size(900, 560);
        return new Dimension(Math.min(d.width, screen.width), Math.min(d.height, screen.height));
    }

    /** Shows the exercises. */
    void practice() {
        left.setSelectedComponent(practice);
        showCard(model.scene() == null ? "welcome" : "board");
    }

    /** What the exercises ask of the window. */
    private final class PracticeHost implements PracticePanel.Host {
        @Override
        public void bench(JobSource job, Path in, boolean blind) {
            model.setBlind(blind);
            source = job;
            folder = in;
            watch.watch(in);
            loader.load(job, false);
        }

        @Override
        public @Nullable Path askFolder(String title, String suggested) {
            return saving.askFolder(title, saving.folder(null).resolve(suggested));
        }

        @Override
        public void tell(String words) {
            BenchWindow.this.tell(words);
        }
    }

    private void build(BenchActions actions) {
        frame.setName("bench");
        frame.setIconImages(Theme.icons());
        frame.setDefaultCloseOperation(WindowConstants.DISPOSE_ON_CLOSE);
        frame.addWindowListener(new WindowAdapter() {
            @Override
            public void windowClosed(WindowEvent e) {
                actions.stop();
                loader.cancel();
                swaps.cancel();
                watch.stop();
                renderer.close();
            }
        });
        left.addTab("Findings", findings);
        left.addTab("Program", new ProgramPanel(model));
        left.addTab("Practice", practice);
        left.setPreferredSize(Px.size(330, 600));
        JTabbedPane right = new JTabbedPane();
        right.addTab("Conditions", new ConditionsPanel(model));
        JPanel rightSplit = new JPanel(new BorderLayout());
        right.addTab("Ask the board", answer);
        right.addTab("Study", new StudyPanel(model, swaps));
        actions.onTab(right::setSelectedIndex);
        rightSplit.add(right);
        rightSplit.setPreferredSize(Px.size(330, 600));
        model.listen(c -> {
            boolean asks = model.asked() != null || model.ruler() != null || model.section() != null;
            if (c == BenchModel.Change.CHOICE && asks) {
                right.setSelectedIndex(1);
            }
        });
        cards.add(board, "board");
        cards.add(welcome(), "welcome");
        cards.add(messageCard(), "message");
        model.listen(c -> {
            if (c == BenchModel.Change.JOB) {
                showCard(model.scene() == null ? "welcome" : "board");
                var scene = model.scene();
                frame.setTitle(scene == null ? "Foilproof" : scene.job().name() + " - Foilproof");
                if (scene != null) {
                    board.requestFocusInWindow();
                }
            }
        });
        JPanel middle = new JPanel(new BorderLayout());
        middle.add(actions.bar(), BorderLayout.NORTH);
        middle.add(cards);
        JSplitPane inner = new JSplitPane(JSplitPane.HORIZONTAL_SPLIT, middle, rightSplit);
        inner.setResizeWeight(1);
        inner.setBorder(BorderFactory.createEmptyBorder());
        JSplitPane outer = new JSplitPane(JSplitPane.HORIZONTAL_SPLIT, left, inner);
        outer.setResizeWeight(0);
        outer.setBorder(BorderFactory.createEmptyBorder());
        left.setMinimumSize(Px.size(240, 100));
        rightSplit.setMinimumSize(Px.size(260, 100));
        outer.setDividerLocation(Px.of(335));
        sides = () -> {
            outer.setDividerLocation(Px.of(335));
            outer.validate();
            inner.setDividerLocation(Math.max(300, inner.getWidth() - Px.of(335)));
        };
        frame.addWindowListener(new WindowAdapter() {
            @Override
            public void windowOpened(WindowEvent e) {
                sides.run();
            }
        });
        JPanel bottom = new JPanel(new BorderLayout());
        bottom.add(new RunStrip(model));
        bottom.add(statusLine(), BorderLayout.SOUTH);
        JPanel all = new JPanel(new BorderLayout());
        all.add(outer);
        all.add(bottom, BorderLayout.SOUTH);
        all.setTransferHandler(new Drop());
        frame.setContentPane(all);
        placeFirst();
    }

    /** The size and place of a window that was never opened before. */
    private void placeFirst() {
        Dimension screen = Toolkit.getDefaultToolkit().getScreenSize();
        frame.setMinimumSize(least());
        frame.setSize(Math.min(Px.of(1500), screen.width), Math.min(Px.of(940), screen.height));
        frame.setLocationRelativeTo(null);
    }

    private JPanel statusLine() {
        JPanel p = new JPanel();
        p.setLayout(new BoxLayout(p, BoxLayout.X_AXIS));
        p.setBorder(Px.pad(2, 14, 6, 14));
        JLabel hint = new JLabel("Keys: F1");
        hint.putClientProperty("FlatLaf.styleClass", "small");
        progress.setMaximumSize(Px.size(220, 12));
        progress.setVisible(false);
        cancel.setVisible(false);
        cancel.setName("cancel");
        cancel.addActionListener(e -> loader.cancel());
        busy.setName("busy");
        told.setName("told");
        told.setMinimumSize(new Dimension(10, Px.of(18)));
        p.add(busy);
        p.add(Box.createHorizontalStrut(Px.of(10)));
        p.add(progress);
        p.add(Box.createHorizontalStrut(Px.of(6)));
        p.add(cancel);
        p.add(Box.createHorizontalStrut(Px.of(10)));
        p.add(told);
        p.add(Box.createHorizontalGlue());
        p.add(hint);
        p.setMinimumSize(new Dimension(10, Px.of(28)));
        p.setPreferredSize(Px.size(400, 30));
        return p;
    }

    private void showCard(String name) {
        ((CardLayout) cards.getLayout()).show(cards, name);
    }

    private JComponent messageCard() {
        JPanel p = new JPanel(new BorderLayout(0, 12));
        p.setBorder(Px.pad(40, 50, 40, 50));
        message.setEditable(false);
        message.setLineWrap(true);
        message.setWrapStyleWord(true);
        message.setName("message");
        message.setFont(new java.awt.Font(java.awt.Font.MONOSPACED, java.awt.Font.PLAIN, Px.of(13)));
        p.add(message);
        JButton back = new JButton("Choose another job");
        back.addActionListener(e -> showCard("welcome"));
        JPanel row = new JPanel();
        row.add(back);
        p.add(row, BorderLayout.SOUTH);
        return p;
    }

    private void showMessage(String words) {
        message.setText("This job cannot be put on the bench:\n\n" + words);
        message.setCaretPosition(0);
        showCard("message");
    }

    private JComponent welcome() {
        JPanel list = new JPanel();
        list.setLayout(new BoxLayout(list, BoxLayout.Y_AXIS));
        list.setBorder(Px.pad(20, 20, 20, 20));
        JLabel title = new JLabel("Which job goes on the bench?");
        title.putClientProperty("FlatLaf.styleClass", "h1");
        title.setAlignmentX(0);
        list.add(title);
        list.add(Box.createVerticalStrut(Px.of(14)));
        JButton open = new JButton("Open a job, a folder or a program ...  (O)");
        open.setName("open");
        open.addActionListener(e -> chooseFile());
        open.setAlignmentX(0);
        list.add(open);
        JLabel drop = new JLabel("or drop one here");
        drop.setAlignmentX(0);
        list.add(drop);
        JButton exercises = new JButton("Practice: find planted faults  (H)");
        exercises.setName("practice from the start page");
        exercises.addActionListener(e -> practice());
        exercises.setAlignmentX(0);
        list.add(Box.createVerticalStrut(Px.of(8)));
        list.add(exercises);
        recent(list);
        List<SampleJobs.Sample> samples = SampleJobs.all();
        if (!samples.isEmpty()) {
            list.add(Box.createVerticalStrut(Px.of(20)));
            JLabel l = new JLabel("Samples to look at");
            l.putClientProperty("FlatLaf.styleClass", "h3");
            l.setAlignmentX(0);
            list.add(l);
        }
        for (SampleJobs.Sample s : samples) {
            JButton b = new JButton("<html><body style='width:" + Px.of(360) + "px'><b>" + s.title() + "</b><br>"
                    + s.story() + "</body></html>");
            b.setName("sample " + s.name());
            b.setHorizontalAlignment(JButton.LEFT);
            b.setAlignmentX(0);
            b.addActionListener(e -> put(s.source(), null));
            list.add(Box.createVerticalStrut(Px.of(6)));
            list.add(b);
        }
        JPanel p = new JPanel(new GridBagLayout());
        p.add(list);
        javax.swing.JScrollPane scroll = new javax.swing.JScrollPane(p);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        return scroll;
    }

    private void recent(JPanel list) {
        String[] paths = preferences().get("recent", "").split("\n");
        boolean first = true;
        for (String path : paths) {
            if (path.isBlank() || !new File(path).exists()) {
                continue;
            }
            if (first) {
                list.add(Box.createVerticalStrut(Px.of(20)));
                JLabel l = new JLabel("Lately on the bench");
                l.putClientProperty("FlatLaf.styleClass", "h3");
                l.setAlignmentX(0);
                list.add(l);
                first = false;
            }
            JButton b = new JButton(path);
            b.setAlignmentX(0);
            b.addActionListener(e -> openPath(Path.of(path)));
            list.add(Box.createVerticalStrut(Px.of(4)));
            list.add(b);
        }
    }

    private void remember(Path path) {
        StringBuilder all = new StringBuilder(path.toAbsolutePath().toString());
        int n = 1;
        for (String p : preferences().get("recent", "").split("\n")) {
            if (!p.isBlank() && !p.equals(path.toAbsolutePath().toString()) && n++ < 6) {
                all.append('\n').append(p);
            }
        }
        if (all.length() < Preferences.MAX_VALUE_LENGTH) {
            preferences().put("recent", all.toString());
        }
    }

    private void chooseFile() {
        JFileChooser chooser = new JFileChooser();
        chooser.setFileSelectionMode(JFileChooser.FILES_AND_DIRECTORIES);
        chooser.setDialogTitle("Open a job.toml, a folder that holds one, or a program");
        if (chooser.showOpenDialog(frame) == JFileChooser.APPROVE_OPTION) {
            openPath(chooser.getSelectedFile().toPath());
        }
    }

    /** Goes on with the exercise that lies in a folder; false where none does. */
    private boolean resumed(Path path) {
        try {
            practice.resume(Practice.open(path));
            left.setSelectedComponent(practice);
            return true;
        } catch (java.io.IOException | Practice.RefusedException e) {
            // A job like any other.
            return false;
        }
    }

    private void openPath(Path path) {
        if (resumed(path)) {
            remember(path);
            return;
        }
        try {
            put(
                    DiskFiles.source(path),
                    Files.isDirectory(path) ? path : path.toAbsolutePath().getParent());
            remember(path);
        } catch (InputException e) {
            showMessage(JobLoader.words(e));
        }
    }

    /** A job, a folder or a program dropped on the window. */
    private final class Drop extends TransferHandler {
        private static final long serialVersionUID = 1L;

        @Override
        public boolean canImport(TransferSupport support) {
            return support.isDataFlavorSupported(DataFlavor.javaFileListFlavor);
        }

        @Override
        public boolean importData(TransferSupport support) {
            try {
                List<?> files = (List<?>) support.getTransferable().getTransferData(DataFlavor.javaFileListFlavor);
                if (!files.isEmpty() && files.get(0) instanceof File f) {
                    openPath(f.toPath());
                    return true;
                }
            } catch (java.io.IOException | java.awt.datatransfer.UnsupportedFlavorException e) {
                showMessage("What was dropped cannot be read: " + e.getMessage());
            }
            return false;
        }
    }
}
