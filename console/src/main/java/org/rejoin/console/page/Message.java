package org.rejoin.console.page;

/**
 * One piece of the picture on its way to browsers.
 *
 * @param topic decides who sees it
 * @param kept whether a page opened later needs it too
 * @param replaces what an earlier one of the same name is replaced by, where only the last counts; empty text otherwise
 * @param json one object on one line
 */
record Message(Topic topic, boolean kept, String replaces, String json) {

    static Message kept(Topic topic, String json) {
        return new Message(topic, true, "", json);
    }

    static Message latest(Topic topic, String name, String json) {
        return new Message(topic, true, name, json);
    }
}
