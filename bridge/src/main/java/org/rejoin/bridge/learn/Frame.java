package org.rejoin.bridge.learn;

import java.util.List;

import org.rejoin.protocol.profile.Layout;

/**
 * One way to take the datagrams apart.
 *
 * @param layout how; of a binary record without the octets it begins with, which are settled at the end
 * @param timeS time of each record, seconds from the first, ascending
 * @param columns every number that changes
 * @param beginning octets that every binary record begins with, at most 8
 * @param words what it is, for the report
 */
record Frame(Layout layout, double[] timeS, List<Column> columns, byte[] beginning, String words) {}
