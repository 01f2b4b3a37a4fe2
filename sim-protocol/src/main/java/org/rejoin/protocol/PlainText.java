package org.rejoin.protocol;

/** What a sender wrote, made fit for a log line or a page. */
public final class PlainText {

    private PlainText() {}

    /** Printable ASCII, at most so long; every other character becomes '?', and "..." stands for what was cut off. */
    public static String of(CharSequence sent, int maxLength) {
        if (sent.length() <= maxLength && isPrintable(sent)) {
            return sent.toString();
        }
        StringBuilder plain = new StringBuilder(Math.min(sent.length(), maxLength) + 3);
        for (int i = 0; i < sent.length(); i++) {
            if (i == maxLength) {
                return plain.append("...").toString();
            }
            char c = sent.charAt(i);
            plain.append(c >= ' ' && c <= '~' ? c : '?');
        }
        return plain.toString();
    }

    /**
     * A name in any script: letters, marks, digits, signs and blanks stay as they are. Each character that would not be
     * seen, or would move what stands around it, becomes '?'.
     */
    public static String name(String sent) {
        StringBuilder plain = new StringBuilder(sent.length());
        sent.codePoints().forEach(c -> plain.appendCodePoint(isSeen(c) ? c : '?'));
        return plain.toString();
    }

    private static boolean isSeen(int codePoint) {
        return switch (Character.getType(codePoint)) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR,
                    Character.SURROGATE,
                    Character.PRIVATE_USE,
                    Character.UNASSIGNED -> false;
            default -> codePoint == ' ' || !Character.isSpaceChar(codePoint);
        };
    }

    private static boolean isPrintable(CharSequence sent) {
        for (int i = 0; i < sent.length(); i++) {
            char c = sent.charAt(i);
            if (c < ' ' || c > '~') {
                return false;
            }
        }
        return true;
    }
}
