package org.rejoin.protocol.nmea;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.protocol.PlainText;

/**
 * A sentence taken apart.
 *
 * @param address talker and formatter, five characters; "P" and what follows for a proprietary one
 * @param fields after the address, as sent
 * @param checked whether a checksum was sent, and right
 */
record Sentence(String address, List<String> fields, boolean checked) {

    /** Nominally 82 characters; real senders exceed it. */
    private static final int LONGEST = 512;

    Sentence {
        fields = List.copyOf(fields);
    }

    /** Takes a sentence with start character '$' apart. */
    static Sentence of(Framing.Raw raw) throws FieldFault {
        String text = raw.text();
        if (text.length() > LONGEST) {
            throw new FieldFault("a sentence of " + text.length() + " characters", "at most " + LONGEST);
        }
        int star = text.indexOf('*');
        String body = text.substring(1, star < 0 ? text.length() : star);
        if (star >= 0) {
            int written = Checksum.written(text, star + 1);
            if (written != Checksum.of(body)) {
                String found = "checksum " + PlainText.of(text.substring(star), 8);
                throw new FieldFault(found, "checksum *" + Checksum.text(body));
            }
        } else if (!raw.terminated()) {
            throw new FieldFault("a sentence cut short: " + PlainText.of(text, 40), "a checksum or a line end");
        }
        List<String> parts = fieldsOf(body);
        String address = parts.get(0);
        if (parts.size() < 2 || !isAddress(address)) {
            throw new FieldFault("not a sentence: " + PlainText.of(text, 40), "an address and fields");
        }
        return new Sentence(address, parts.subList(1, parts.size()), star >= 0);
    }

    boolean proprietary() {
        return address.charAt(0) == 'P';
    }

    /** What kind of sentence, whoever sent it. */
    String formatter() {
        return proprietary() ? address : address.substring(2);
    }

    /** A field by its number in the standard, from 1; empty if it was not sent. */
    String field(int number) {
        return number <= fields.size() ? fields.get(number - 1) : "";
    }

    /** A field that must be one number; NaN if it is empty or not. */
    double number(int number) {
        return Fields.number(field(number));
    }

    private static boolean isAddress(String address) {
        if (address.length() != 5 && !(address.length() >= 4 && address.charAt(0) == 'P')) {
            return false;
        }
        for (int i = 0; i < address.length(); i++) {
            char c = address.charAt(i);
            if (!((c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'))) {
                return false;
            }
        }
        return true;
    }

    private static List<String> fieldsOf(String body) {
        List<String> parts = new ArrayList<>();
        int from = 0;
        for (int comma = body.indexOf(','); comma >= 0; comma = body.indexOf(',', from)) {
            parts.add(body.substring(from, comma).strip());
            from = comma + 1;
        }
        parts.add(body.substring(from).strip());
        return parts;
    }
}
