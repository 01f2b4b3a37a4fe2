package org.rejoin.console.page;

import io.nayuki.qrcodegen.QrCode;

/** A text as a square that a tablet's camera reads (ISO/IEC 18004), dark on light in either look. */
final class ScanCode {

    /** The light border that it needs, in its own small squares. */
    private static final int BORDER = 4;

    private ScanCode() {}

    /** As a picture of SVG. */
    static String svg(String text) {
        QrCode code = QrCode.encodeText(text, QrCode.Ecc.MEDIUM);
        StringBuilder dark = new StringBuilder();
        for (int y = 0; y < code.size; y++) {
            for (int x = 0; x < code.size; x++) {
                if (code.getModule(x, y)) {
                    dark.append('M')
                            .append(x + BORDER)
                            .append(' ')
                            .append(y + BORDER)
                            .append("h1v1h-1z");
                }
            }
        }
        int side = code.size + 2 * BORDER;
        return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + side + ' ' + side
                + "\"><rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/><path d=\"" + dark
                + "\" fill=\"#000000\"/></svg>";
    }
}
