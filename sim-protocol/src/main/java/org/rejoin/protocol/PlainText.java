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
