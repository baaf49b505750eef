package foilproof.app.ui;

import foilproof.app.viewer.BoardSnapshot;
import foilproof.app.viewer.JobScene;
import foilproof.app.viewer.Section;
import foilproof.bench.Tool;
import foilproof.motion.Segments;
import foilproof.stock.Cut;
import foilproof.stock.PointHistory;
import java.awt.BorderLayout;
import java.awt.Dimension;
import java.util.Locale;
import javax.swing.Box;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JSpinner;
import javax.swing.SpinnerNumberModel;
import org.jspecify.annotations.Nullable;

/** A groove that was measured under the microscope: which one, by a click; how wide, typed; what Z error that means. */
final class GroovePanel extends JPanel {
    private static final long serialVersionUID = 1L;
    /** A groove that another cut widened by more than this is none to be measured, mm. */
    private static final double SAME_MM = 0.02;

    private final transient BenchModel model;
    private final JSpinner width = typed("measured width, mm", 0, 5, 0.001);
    private final JSpinner readTo = typed("read to, mm", 0.005, 0.2, 0.001);
    private final JComboBox<String> where = new JComboBox<>(new String[] {"at top", "at bottom"});
    private final Wrapped says = new Wrapped(" ");
    private final JButton take = new JButton("Set Z error to it");
    private transient @Nullable Groove groove;
    private transient @Nullable GrooveInverse answer;

    /** A groove that was clicked: its run, cutter and depth below the foil top without any Z error, mm. */
    private record Groove(
            int run,
            Tool tool,
            double depthMm,
            double foilMm,
            @Nullable String doubt) {}

    GroovePanel(BenchModel model) {
        super(new BorderLayout(0, 2));
        this.model = model;
        setName("measured groove");
        setBorder(Px.pad(6, 0, 0, 0));
        JLabel head = new JLabel("Measured under the microscope, mm (M)");
        head.setLabelFor(width);
        add(head, BorderLayout.NORTH);
        JPanel row = new JPanel();
        row.setLayout(new javax.swing.BoxLayout(row, javax.swing.BoxLayout.X_AXIS));
        row.add(width);
        row.add(new JLabel(" +/- "));
        row.add(readTo);
        row.add(Box.createHorizontalStrut(Px.of(4)));
        row.add(where);
        where.setName("measured at");
        where.setToolTipText("at the foil top, or at the foil bottom where the substrate begins");
        add(row);
        JPanel low = new JPanel(new BorderLayout(0, 3));
        says.setName("measured says");
        low.add(says);
        take.setName("take measured");
        take.setEnabled(false);
        take.addActionListener(e -> take());
        low.add(take, BorderLayout.SOUTH);
        add(low, BorderLayout.SOUTH);
        width.addChangeListener(e -> tell());
        readTo.addChangeListener(e -> tell());
        where.addActionListener(e -> tell());
        model.listen(c -> {
            switch (c) {
                case CHOICE, BOARD, CONDITIONS -> {
                    groove = find();
                    tell();
                }
                default -> {}
            }
        });
        tell();
    }

    private static JSpinner typed(String name, double now, double most, double step) {
        JSpinner s = new JSpinner(new SpinnerNumberModel(now, 0.0, most, step));
        JSpinner.NumberEditor editor = new JSpinner.NumberEditor(s, "0.000");
        s.setEditor(editor);
        s.setName(name);
        s.getAccessibleContext().setAccessibleName(name);
        s.setPreferredSize(new Dimension(Px.of(76), Px.of(26)));
        return s;
    }

    /** Puts the cursor where the width is typed. */
    void type() {
        if (width.getEditor() instanceof JSpinner.DefaultEditor editor) {
            editor.getTextField().requestFocusInWindow();
            javax.swing.SwingUtilities.invokeLater(editor.getTextField()::selectAll);
        }
    }

    private @Nullable Groove find() {
        double[] p = model.asked();
        BoardSnapshot b = model.finished() != null ? model.finished() : model.board();
        JobScene s = model.drawnScene();
        if (p == null || b == null || s == null) {
            return null;
        }
        BoardSnapshot.Conditions c = model.conditions(b);
        PointHistory h = s.history(b, c, p[0], p[1]);
        Cut floor = h.madeFloor();
        Tool tool = floor == null
                ? null
                : s.job().toolNamed(s.ground().runs().get(floor.run()).toolName());
        if (floor == null || tool == null) {
            return null;
        }
        Segments all = s.ground().plan().segments();
        int i = floor.segment();
        double t = along(all, i, p[0], p[1]);
        double tipMm = all.z0Mm(i) + t * (all.z1Mm(i) - all.z0Mm(i));
        // The run's zero on this board, without the Z error of the what-if: what the groove would be as programmed.
        double zero = s.boardAt(b, c).zeroMm(floor.run());
        double surface = b.spot(c, p[0], p[1]).surfaceMm();
        double error = model.whatIf().zErrorMm().getOrDefault(floor.run(), 0.0);
        double depth = surface - (tipMm + zero);
        return new Groove(
                floor.run(), tool, depth, c.foilMm(), doubt(s, b, c, p, tool, new double[] {depth + error, c.foilMm()
                }));
    }

    private static double along(Segments all, int i, double x, double y) {
        if (all.isArc(i)) {
            return 0.5;
        }
        double ux = all.x1Mm(i) - all.x0Mm(i);
        double uy = all.y1Mm(i) - all.y0Mm(i);
        double l2 = ux * ux + uy * uy;
        return l2 < 1e-12 ? 1 : Math.max(0, Math.min(1, ((x - all.x0Mm(i)) * ux + (y - all.y0Mm(i)) * uy) / l2));
    }

    /** Why the groove here is not one pass of one cutter; null where it is. */
    private static @Nullable String doubt(
            JobScene s, BoardSnapshot b, BoardSnapshot.Conditions c, double[] p, Tool tool, double[] depthAndFoil) {
        if (tool.tipUnknown() || depthAndFoil[0] <= 0) {
            return null;
        }
        double[] n = AcrossFinding.across(s, null, b.side(), p);
        double reach = 1.5;
        Section cut = Section.of(
                b, c, p[0] - n[0] * reach, p[1] - n[1] * reach, p[0] + n[0] * reach, p[1] + n[1] * reach, 1201);
        Section.Groove g = cut.grooveNear(reach, depthAndFoil[1]);
        double wide = 2 * tool.cutRadiusAtHeightMm(depthAndFoil[0]);
        if (g == null || Math.abs(g.topWidthMm() - wide) > SAME_MM) {
            return "Here more than one pass made the width, or none did: click a single groove, away from corners.";
        }
        return null;
    }

    private void tell() {
        Groove g = groove;
        answer = null;
        take.setEnabled(false);
        take.setText("Set Z error to it");
        if (g == null) {
            says.setText("Click a groove, then type its width: the depth and Z error that it means.");
            return;
        }
        String groovesCutter = String.format(
                Locale.ROOT,
                "%s, run %d, %.3f mm (%.1f thou) deep as programmed. ",
                g.tool().name(),
                g.run() + 1,
                g.depthMm(),
                g.depthMm() / 0.0254);
        double w = ((Number) width.getValue()).doubleValue();
        if (w <= 0) {
            says.setText(groovesCutter + (g.doubt() == null ? "Type the width that you measured." : g.doubt()));
            return;
        }
        GrooveInverse made = GrooveInverse.of(
                g.tool(),
                g.depthMm(),
                g.foilMm(),
                new GrooveInverse.Reading(
                        w, ((Number) readTo.getValue()).doubleValue(), where.getSelectedIndex() == 1));
        answer = made;
        says.setText(groovesCutter + made.words() + (g.doubt() == null ? "" : " " + g.doubt()));
        Double e = made.offered();
        if (e != null) {
            take.setEnabled(true);
            take.setText(String.format(Locale.ROOT, "Set Z error of run %d to %+.3f mm", g.run() + 1, e));
        }
    }

    private void take() {
        Groove g = groove;
        GrooveInverse made = answer;
        Double e = made == null ? null : made.offered();
        if (g != null && e != null) {
            model.setWhatIf(model.whatIf().withZError(g.run(), e));
        }
    }

    /** What is said now, to be copied. */
    String shownText() {
        return ((Number) width.getValue()).doubleValue() > 0 && groove != null ? says.getText() : "";
    }
}
