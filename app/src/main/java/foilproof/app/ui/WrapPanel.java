package foilproof.app.ui;

import java.awt.Component;
import java.awt.Container;
import java.awt.Dimension;
import java.awt.LayoutManager;
import javax.swing.JPanel;

/** A row of controls that breaks into as many rows as its width needs; put it where its width is given to it. */
final class WrapPanel extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final int GAP = 3;

    WrapPanel() {
        super(new Rows());
        setBorder(Px.pad(3, 3, 3, 3));
    }

    /** A gap between groups; swallowed where a row begins or ends. */
    static final class Gap extends Component {
        private static final long serialVersionUID = 1L;

        @Override
        public Dimension getPreferredSize() {
            return new Dimension(Px.of(9), 1);
        }
    }

    private static final class Rows implements LayoutManager {
        @Override
        public void addLayoutComponent(String name, Component c) {}

        @Override
        public void removeLayoutComponent(Component c) {}

        @Override
        public Dimension preferredLayoutSize(Container p) {
            int width = p.getWidth() > 0 ? p.getWidth() : Px.of(700);
            return new Dimension(width, place(p, width, false));
        }

        @Override
        public Dimension minimumLayoutSize(Container p) {
            return new Dimension(Px.of(60), preferredLayoutSize(p).height);
        }

        @Override
        public void layoutContainer(Container p) {
            place(p, p.getWidth(), true);
        }

        /** Places all, or only counts; gives back the height that is needed. */
        private static int place(Container p, int width, boolean move) {
            var in = p.getInsets();
            int gap = Px.of(GAP);
            int x = in.left;
            int y = in.top;
            int row = 0;
            for (Component c : p.getComponents()) {
                if (!c.isVisible()) {
                    continue;
                }
                Dimension d = c.getPreferredSize();
                boolean between = c instanceof Gap;
                if (x > in.left && x + d.width > width - in.right) {
                    x = in.left;
                    y += row + gap;
                    row = 0;
                }
                if (between && x == in.left) {
                    continue;
                }
                if (move) {
                    c.setBounds(x, y, d.width, d.height);
                }
                x += d.width + gap;
                row = Math.max(row, d.height);
            }
            return y + row + in.bottom;
        }
    }
}
