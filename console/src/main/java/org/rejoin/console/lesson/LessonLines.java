package org.rejoin.console.lesson;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

import org.rejoin.protocol.yaml.YamlNode;

/** Where in a lesson file its members stand. */
final class LessonLines {

    private final String file;
    private final Map<String, Integer> lines = new HashMap<>();

    LessonLines(String file, YamlNode root) {
        this.file = file;
        add("", root);
    }

    private void add(String path, YamlNode node) {
        lines.putIfAbsent(path, node.line());
        if (node instanceof YamlNode.Mapping mapping) {
            mapping.members().forEach((key, member) -> {
                lines.putIfAbsent(path + "/" + key, member.line());
                add(path + "/" + key, member.value());
            });
        } else if (node instanceof YamlNode.Sequence sequence) {
            List<YamlNode> items = sequence.items();
            for (int i = 0; i < items.size(); i++) {
                add(path + "/" + i, items.get(i));
            }
        }
    }

    /** File and line of a member, as "amendments/0/say"; of what it belongs to where it is missing. */
    String at(String member) {
        String path = "/" + member;
        while (!lines.containsKey(path) && path.lastIndexOf('/') > 0) {
            path = path.substring(0, path.lastIndexOf('/'));
        }
        return file + ":" + lines.getOrDefault(path, 1);
    }
}
