package foilproof.app.ui;

import java.awt.Dimension;
import java.awt.Rectangle;
import javax.swing.BorderFactory;
import javax.swing.BoxLayout;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.Scrollable;

/** A column that is as wide as the part of it that is seen, and scrolls downwards. */
final class Column extends JPanel implements Scrollable {
    private static final long serialVersionUID = 1L;

    private boolean seen;

    Column() {
        setLayout(new BoxLayout(this, BoxLayout.Y_AXIS));
    }

    /** The column in a pane that scrolls it. */
    JScrollPane scrolled() {
        JScrollPane scroll =
                new JScrollPane(this, JScrollPane.VERTICAL_SCROLLBAR_AS_NEEDED, JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        scroll.getVerticalScrollBar().setUnitIncrement(20);
        // Fields that are filled before they are shown must not leave the column scrolled to them.
        addHierarchyListener(e -> {
            if (!seen && isShowing()) {
                seen = true;
                javax.swing.SwingUtilities.invokeLater(
                        () -> scroll.getVerticalScrollBar().setValue(0));
            }
        });
        return scroll;
    }

    @Override
    public Dimension getPreferredScrollableViewportSize() {
        return getPreferredSize();
    }

    @Override
    public int getScrollableUnitIncrement(Rectangle seen, int orientation, int direction) {
        return 20;
    }

    @Override
    public int getScrollableBlockIncrement(Rectangle seen, int orientation, int direction) {
        return seen.height;
    }

    @Override
    public boolean getScrollableTracksViewportWidth() {
        return true;
    }

    @Override
    public boolean getScrollableTracksViewportHeight() {
        return false;
    }
}
