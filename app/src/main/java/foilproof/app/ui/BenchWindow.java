package foilproof.app.ui;

import com.formdev.flatlaf.FlatDarkLaf;
import com.formdev.flatlaf.FlatLaf;
import com.formdev.flatlaf.FlatLightLaf;
import com.formdev.flatlaf.fonts.inter.FlatInterFont;
import foilproof.app.viewer.OffscreenRenderer;
import foilproof.bench.DiskFiles;
import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
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
    private static final int SIDE_PX = 335;

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
    private final JProgressBar progress = new JProgressBar(0, 1000);
    private final JButton cancel = new JButton("Stop");
    private final JTabbedPane left = new JTabbedPane();

    BenchWindow(ReadOptions options) {
        renderer.warmUp();
        board = new BoardView(model, renderer);
        BenchActions actions = new BenchActions(model, board, frame);
        findings = new FindingsPanel(model, actions::flyTo);
        answer = new AnswerPanel(model);
        loader = new JobLoader(model, options, new JobLoader.Teller() {
            @Override
            public void working(@Nullable String what, double fraction) {
                busy.setText(what == null ? " " : what + " ...");
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
                busy.setText(words);
            }
        });
        watch = new FileWatch(model, loader::reload);
        findings.onAccept(f -> accept(f, options));
        actions.attach(frame.getRootPane(), findings, answer, loader, this::chooseFile, this::setDark);
        build(actions);
    }

    /** Opens the window and waits until it is closed. */
    static void openAndWait(@Nullable JobSource job, ReadOptions options) {
        CountDownLatch closed = new CountDownLatch(1);
        SwingUtilities.invokeLater(() -> {
            try {
                begin(job, options, closed);
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

    private static void begin(@Nullable JobSource job, ReadOptions options, CountDownLatch closed) {
        boolean dark = preferences().getBoolean("dark", true);
        FlatInterFont.installLazy();
        FlatLaf.setPreferredFontFamily(FlatInterFont.FAMILY);
        setUp(dark);
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

    private static void setUp(boolean dark) {
        if (dark) {
            FlatDarkLaf.setup();
        } else {
            FlatLightLaf.setup();
        }
    }

    private void setDark(boolean dark) {
        preferences().putBoolean("dark", dark);
        setUp(dark);
        FlatLaf.updateUI();
        model.setLook(model.look().withDark(dark));
    }

    void open(@Nullable JobSource job) {
        frame.setVisible(true);
        if (job != null) {
            put(job, null);
        } else {
            showCard("welcome");
        }
    }

    /** Puts a job on the bench; its folder where it lies on disk. */
    private void put(JobSource job, @Nullable Path in) {
        source = job;
        folder = in;
        watch.watch(in);
        loader.load(job, false);
    }

    private void accept(foilproof.findings.Finding f, ReadOptions options) {
        JobSource from = source;
        Path in = folder;
        var scene = model.scene();
        if (from == null || in == null || scene == null) {
            busy.setText("A finding is accepted beside a job on disk; samples are not written to.");
            return;
        }
        String done = AcceptDialog.ask(frame, from, scene.job(), in, options.settings(), f);
        busy.setText(done.isEmpty() ? " " : done);
        if (done.startsWith("Accepted")) {
            loader.reload();
        }
    }

    private void build(BenchActions actions) {
        frame.setName("bench");
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
        left.setPreferredSize(new Dimension(330, 600));
        JTabbedPane right = new JTabbedPane();
        right.addTab("Conditions", new ConditionsPanel(model));
        JPanel rightSplit = new JPanel(new BorderLayout());
        right.addTab("Ask the board", answer);
        right.addTab("Study", new StudyPanel(model, swaps));
        actions.onTab(right::setSelectedIndex);
        rightSplit.add(right);
        rightSplit.setPreferredSize(new Dimension(330, 600));
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
        left.setMinimumSize(new Dimension(240, 100));
        rightSplit.setMinimumSize(new Dimension(260, 100));
        outer.setDividerLocation(SIDE_PX);
        frame.addWindowListener(new WindowAdapter() {
            @Override
            public void windowOpened(WindowEvent e) {
                outer.setDividerLocation(SIDE_PX);
                inner.setDividerLocation(Math.max(300, inner.getWidth() - SIDE_PX));
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
        Dimension screen = Toolkit.getDefaultToolkit().getScreenSize();
        frame.setMinimumSize(new Dimension(900, 560));
        frame.setSize(Math.min(1500, screen.width), Math.min(940, screen.height));
        frame.setLocationRelativeTo(null);
    }

    private JPanel statusLine() {
        JPanel p = new JPanel();
        p.setLayout(new BoxLayout(p, BoxLayout.X_AXIS));
        p.setBorder(BorderFactory.createEmptyBorder(2, 14, 6, 14));
        JLabel hint = new JLabel("Keys: F1");
        hint.putClientProperty("FlatLaf.styleClass", "small");
        progress.setMaximumSize(new Dimension(220, 12));
        progress.setVisible(false);
        cancel.setVisible(false);
        cancel.setName("cancel");
        cancel.addActionListener(e -> loader.cancel());
        busy.setName("busy");
        p.add(busy);
        p.add(Box.createHorizontalStrut(10));
        p.add(progress);
        p.add(Box.createHorizontalStrut(6));
        p.add(cancel);
        p.add(Box.createHorizontalGlue());
        p.add(hint);
        p.setMinimumSize(new Dimension(10, 28));
        p.setPreferredSize(new Dimension(400, 30));
        return p;
    }

    private void showCard(String name) {
        ((CardLayout) cards.getLayout()).show(cards, name);
    }

    private JComponent messageCard() {
        JPanel p = new JPanel(new BorderLayout(0, 12));
        p.setBorder(BorderFactory.createEmptyBorder(40, 50, 40, 50));
        message.setEditable(false);
        message.setLineWrap(true);
        message.setWrapStyleWord(true);
        message.setName("message");
        message.setFont(new java.awt.Font(java.awt.Font.MONOSPACED, java.awt.Font.PLAIN, 13));
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
        list.setBorder(BorderFactory.createEmptyBorder(20, 20, 20, 20));
        JLabel title = new JLabel("Which job goes on the bench?");
        title.putClientProperty("FlatLaf.styleClass", "h1");
        title.setAlignmentX(0);
        list.add(title);
        list.add(Box.createVerticalStrut(14));
        JButton open = new JButton("Open a job, a folder or a program ...  (O)");
        open.setName("open");
        open.addActionListener(e -> chooseFile());
        open.setAlignmentX(0);
        list.add(open);
        JLabel drop = new JLabel("or drop one here");
        drop.setAlignmentX(0);
        list.add(drop);
        recent(list);
        List<SampleJobs.Sample> samples = SampleJobs.all();
        if (!samples.isEmpty()) {
            list.add(Box.createVerticalStrut(20));
            JLabel l = new JLabel("Samples to look at");
            l.putClientProperty("FlatLaf.styleClass", "h3");
            l.setAlignmentX(0);
            list.add(l);
        }
        for (SampleJobs.Sample s : samples) {
            JButton b = new JButton(
                    "<html><body style='width:360px'><b>" + s.title() + "</b><br>" + s.story() + "</body></html>");
            b.setName("sample " + s.name());
            b.setHorizontalAlignment(JButton.LEFT);
            b.setAlignmentX(0);
            b.addActionListener(e -> put(s.source(), null));
            list.add(Box.createVerticalStrut(6));
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
                list.add(Box.createVerticalStrut(20));
                JLabel l = new JLabel("Lately on the bench");
                l.putClientProperty("FlatLaf.styleClass", "h3");
                l.setAlignmentX(0);
                list.add(l);
                first = false;
            }
            JButton b = new JButton(path);
            b.setAlignmentX(0);
            b.addActionListener(e -> openPath(Path.of(path)));
            list.add(Box.createVerticalStrut(4));
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

    private void openPath(Path path) {
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
