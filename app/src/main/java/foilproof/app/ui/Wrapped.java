package foilproof.app.ui;

import java.awt.Container;
import java.awt.Dimension;
import java.awt.Insets;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import javax.swing.JTextArea;
import javax.swing.UIManager;
import javax.swing.text.DefaultCaret;

/** Words of a panel that break into as many lines as its width needs. */
final class Wrapped extends JTextArea {
    private static final long serialVersionUID = 1L;

    private int laidOutFor;

    Wrapped(String words) {
        super(words);
        setEditable(false);
        setFocusable(false);
        setOpaque(false);
        setLineWrap(true);
        setWrapStyleWord(true);
        setBorder(null);
        setMargin(new Insets(0, 0, 0, 0));
        setAlignmentX(LEFT_ALIGNMENT);
        putClientProperty("FlatLaf.styleClass", "small");
        if (getCaret() instanceof DefaultCaret caret) {
            // New words must not scroll the panel that they stand in.
            caret.setUpdatePolicy(DefaultCaret.NEVER_UPDATE);
        }
        addComponentListener(new ComponentAdapter() {
            @Override
            public void componentResized(ComponentEvent e) {
                if (getWidth() != laidOutFor) {
                    laidOutFor = getWidth();
                    revalidate();
                }
            }
        });
    }

    @Override
    public void updateUI() {
        super.updateUI();
        setForeground(UIManager.getColor("Label.foreground"));
    }

    @Override
    public Dimension getPreferredSize() {
        Container p = getParent();
        if (getWidth() == 0 && p != null && p.getWidth() > 0) {
            setSize(p.getWidth(), Short.MAX_VALUE);
        }
        return new Dimension(10, super.getPreferredSize().height);
    }

    @Override
    public Dimension getMaximumSize() {
        return new Dimension(Short.MAX_VALUE, getPreferredSize().height);
    }
}
