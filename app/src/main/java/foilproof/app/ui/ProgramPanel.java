package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import foilproof.bench.ProgramEntry;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import foilproof.motion.TipState;
import java.awt.BorderLayout;
import java.awt.Font;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.util.Arrays;
import javax.swing.DefaultListModel;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;

/** The program's text: follows the moment; a click in it moves the moment. */
final class ProgramPanel extends JPanel {
    private static final long serialVersionUID = 1L;

    private final transient BenchModel model;
    private final JLabel file = new JLabel(" ");
    private final DefaultListModel<String> lines = new DefaultListModel<>();
    private final JList<String> list = new JList<>(lines);
    private int program = -1;

    ProgramPanel(BenchModel model) {
        super(new BorderLayout(0, 4));
        this.model = model;
        setBorder(Px.pad(8, 10, 8, 10));
        list.setName("program");
        list.getAccessibleContext().setAccessibleName("Program text");
        list.setFont(new Font(Font.MONOSPACED, Font.PLAIN, Px.of(13)));
        list.setFixedCellHeight(Px.of(18));
        list.setPrototypeCellValue("00000  N0000 G1 X00.0000 Y00.0000 Z-0.0000 F000");
        list.addMouseListener(new MouseAdapter() {
            @Override
            public void mousePressed(MouseEvent e) {
                int at = list.locationToIndex(e.getPoint());
                if (at >= 0) {
                    goTo(at + 1);
                }
            }
        });
        list.getInputMap().put(javax.swing.KeyStroke.getKeyStroke("ENTER"), "go");
        list.getActionMap().put("go", new javax.swing.AbstractAction() {
            private static final long serialVersionUID = 1L;

            @Override
            public void actionPerformed(java.awt.event.ActionEvent e) {
                goTo(list.getSelectedIndex() + 1);
            }
        });
        add(file, BorderLayout.NORTH);
        add(new JScrollPane(list));
        model.listen(c -> {
            if (c == BenchModel.Change.JOB) {
                program = -1;
                lines.clear();
            }
            if (c == BenchModel.Change.JOB || c == BenchModel.Change.TIME) {
                follow();
            }
        });
    }

    private void follow() {
        JobScene s = model.scene();
        if (s == null || s.ground().plan().programs().isEmpty()) {
            return;
        }
        TipState tip = s.ground().plan().tipAt(model.timeS());
        int wanted = Math.max(0, tip.program());
        if (wanted != program) {
            program = wanted;
            PlannedProgram p = s.ground().plan().programs().get(wanted);
            ProgramEntry entry = p.entry();
            file.setText(p.file());
            String[] text = entry.source().latin1().split("\r\n|\n|\r", -1);
            lines.clear();
            java.util.List<String> all = new java.util.ArrayList<>(text.length);
            for (int i = 0; i < text.length; i++) {
                all.add(String.format(java.util.Locale.ROOT, "%5d  %s", i + 1, text[i]));
            }
            lines.addAll(all);
        }
        int line = tip.line();
        if (line >= 1 && line <= lines.size()) {
            list.setSelectedIndex(line - 1);
            int to = Math.min(lines.size() - 1, line + 6);
            list.ensureIndexIsVisible(to);
            list.ensureIndexIsVisible(Math.max(0, line - 8));
            list.ensureIndexIsVisible(line - 1);
        }
    }

    private void goTo(int line) {
        JobScene s = model.scene();
        if (s == null || program < 0) {
            return;
        }
        Segments all = s.ground().plan().segments();
        PlannedProgram p = s.ground().plan().programs().get(program);
        for (int i = p.firstSegment(); i < p.endSegment(); i++) {
            if (all.line(i) >= line) {
                model.setTime(all.startS(i) + 1e-4);
                return;
            }
        }
        if (p.endSegment() > p.firstSegment()) {
            // Nothing moves from here on: the moment is the end of the last move.
            model.setTime(all.endS(p.endSegment() - 1));
        }
    }

    /** For tests: the lines shown. */
    String[] shownLines() {
        return Arrays.stream(lines.toArray()).map(Object::toString).toArray(String[]::new);
    }
}
