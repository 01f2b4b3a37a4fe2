package org.rejoin.console.page;

import java.nio.charset.StandardCharsets;
import java.util.Optional;

import io.netty.handler.codec.http.HttpResponseStatus;

/** What a page is answered: status of HTTP, media type, content. */
record PageAnswer(HttpResponseStatus status, String type, byte[] octets) {

    static PageAnswer json(String text) {
        return new PageAnswer(HttpResponseStatus.OK, "application/json", text.getBytes(StandardCharsets.UTF_8));
    }

    static PageAnswer no(HttpResponseStatus status, String why) {
        return new PageAnswer(status, "text/plain; charset=utf-8", why.getBytes(StandardCharsets.UTF_8));
    }

    /** Of a room. */
    static PageAnswer of(PageRoom.Answer answer) {
        HttpResponseStatus status = switch (answer.outcome()) {
            case DONE -> HttpResponseStatus.OK;
            case NOT_NOW -> HttpResponseStatus.CONFLICT;
            case BAD -> HttpResponseStatus.BAD_REQUEST;
            case UNKNOWN -> HttpResponseStatus.NOT_FOUND;
            case NOT_YOURS -> HttpResponseStatus.FORBIDDEN;
        };
        return new PageAnswer(status, answer.type(), answer.text().getBytes(StandardCharsets.UTF_8));
    }

    /** What is asked of; else the question cannot be answered, and why. */
    static <T> T found(Optional<T> asked, String why) throws No {
        return asked.orElseThrow(() -> new No(HttpResponseStatus.NOT_FOUND, why));
    }

    /** A question that cannot be answered. */
    static final class No extends Exception {
        private static final long serialVersionUID = 1;

        private final transient PageAnswer answer;

        No(HttpResponseStatus status, String why) {
            super(why);
            this.answer = no(status, why);
        }

        PageAnswer answer() {
            return answer;
        }
    }
}
