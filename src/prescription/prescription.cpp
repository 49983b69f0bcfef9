// SPDX-License-Identifier: MIT
#include "prescription/prescription.h"

#include <algorithm>

#include "prescription/limit.h"
#include "prescription/notation.h"
#include "prescription/parts.h"

namespace tickleaf::prescription {

namespace {

using support::Findings;
using yaml::Node;

constexpr std::int64_t kFormat = 1;

void check_format(FieldReader& reader, Findings& findings) {
    const auto format = reader.integer("format");
    if (format && format->value != kFormat) {
        findings.error(format->span, "format-unknown",
                       "format is " + std::to_string(format->value) +
                           ", but this program reads format 1",
                       "write format: 1");
    }
}

std::vector<Limit> read_limits(FieldReader& reader, Findings& findings) {
    std::vector<Limit> limits;
    const Node* node = reader.node("limits");
    if (node == nullptr) {
        return limits;
    }
    if (node->kind != Node::Kind::List) {
        findings.error(node->span, "wrong-type",
                       "limits is " + yaml::describe(*node) + ", but a list was expected",
                       "write one limit a line, each after \"- \"");
        return limits;
    }
    for (const Node& item : node->items) {
        if (auto limit = read_limit(item, findings)) {
            limits.push_back(std::move(*limit));
        }
    }
    return limits;
}

std::vector<Waiver> read_waivers(FieldReader& reader, Findings& findings) {
    std::vector<Waiver> waivers;
    const Node* node = reader.node("waive");
    if (node == nullptr) {
        return waivers;
    }
    if (node->kind != Node::Kind::List) {
        findings.error(node->span, "wrong-type",
                       "waive is " + yaml::describe(*node) +
                           ", but a list of rules with reasons was expected",
                       "write - {rule: ..., reason: ...}");
        return waivers;
    }
    for (const Node& item : node->items) {
        FieldReader waiver(item, waiver_fields(), findings);
        Waiver one{required_words(waiver, "rule", findings),
                   required_words(waiver, "reason", findings)};
        waiver.finish();
        if (!one.rule.value.empty() && !one.reason.value.empty()) {
            waivers.push_back(std::move(one));
        }
    }
    return waivers;
}

void read_dates(FieldReader& reader, Prescription& prescription, Findings& findings) {
    if (const Node* starts = reader.node("starts")) {
        prescription.starts = read_date(*starts, "starts", findings);
    }
    if (const Node* review = reader.node("review")) {
        prescription.review = read_date(*review, "review", findings);
    }
    if (prescription.starts && prescription.review &&
        std::chrono::sys_days{prescription.review->value} <
            std::chrono::sys_days{prescription.starts->value}) {
        findings.error(prescription.review->span, "review-before-start",
                       "the review is before the start of the programme",
                       "write a day on or after starts");
    }
}

std::optional<Located<std::int64_t>> read_logbook(FieldReader& reader, Findings& findings) {
    const Node* node = reader.node("logbook");
    if (node == nullptr) {
        return std::nullopt;
    }
    FieldReader logbook(*node, logbook_fields(), findings);
    const auto weeks = optional_count(logbook, "weeks", kMostLogbookWeeks, findings);
    logbook.finish();
    return weeks;
}

/// A key that was not understood may have been meant for something that seems to be missing.
void doubt_what_is_absent(Prescription& prescription) {
    Unread& unread = prescription.unread;
    unread.problem = unread.problem || prescription.problem.empty();
    unread.side = unread.side || !prescription.side;
    unread.dates = unread.dates || !prescription.starts || !prescription.review;
    unread.home = unread.home || prescription.home.equipment.empty();
}

/// Every band an exercise names is at home.
void check_bands(Prescription& prescription, Findings& findings) {
    std::vector<std::string> names;
    for (const Equipment& item : prescription.home.equipment) {
        if (item.band) {
            names.push_back(item.band->name);
        }
    }
    for (Stage& stage : prescription.stages) {
        for (ExerciseLine& line : stage.exercises) {
            if (!line.band ||
                std::find(names.begin(), names.end(), line.band->value) != names.end()) {
                continue;
            }
            line.is_whole = false;
            stage.has_all_lines = false;
            const std::string near = did_you_mean(line.band->value, names);
            findings.error(line.band->span, "band-unknown",
                           "the band " + quoted(line.band->value) + " is not in home.equipment",
                           near.empty() ? "add it there with its length and force" : near);
        }
    }
}

} // namespace

std::optional<Prescription> read(const Node& root, Findings& findings) {
    FieldReader reader(root, root_fields(), findings);
    if (!reader.is_map()) {
        return std::nullopt;
    }
    Prescription prescription;
    prescription.span = root.span;
    check_format(reader, findings);
    Unread& unread = prescription.unread;
    const auto watched = [&](bool& bad, const auto& read_part) {
        const Watch watch(findings);
        read_part();
        bad = watch.has_errors();
    };
    watched(unread.patient, [&] {
        if (const Node* patient = reader.node("patient")) {
            prescription.patient = read_patient(*patient, findings);
        }
    });
    if (const Node* clinic = reader.node("clinic")) {
        prescription.clinic = read_clinic(*clinic, findings);
    }
    watched(unread.problem, [&] { prescription.problem = free_text(reader, "problem", findings); });
    prescription.goal = free_text(reader, "goal", findings);
    watched(unread.side, [&] {
        if (const Node* side = reader.node("side")) {
            prescription.side = read_side(*side, findings);
        }
    });
    watched(unread.dates, [&] { read_dates(reader, prescription, findings); });
    watched(unread.home, [&] {
        if (const Node* home = reader.node("home")) {
            prescription.home = read_home(*home, findings);
        }
    });
    prescription.limits = read_limits(reader, findings);
    if (const Node* pain = reader.node("pain")) {
        prescription.pain = read_pain_rule(*pain, findings);
    }
    if (const Node* stages = reader.node("stages")) {
        prescription.stages = read_stages(*stages, findings);
    }
    prescription.logbook_weeks = read_logbook(reader, findings);
    prescription.waivers = read_waivers(reader, findings);
    const Watch keys(findings);
    reader.finish();
    if (keys.has_errors()) {
        doubt_what_is_absent(prescription);
    }
    check_bands(prescription, findings);
    return prescription;
}

Prescription judgeable(const Prescription& prescription) {
    Prescription result = prescription;
    for (Stage& stage : result.stages) {
        const std::size_t all = stage.exercises.size();
        std::erase_if(stage.exercises, [&](const ExerciseLine& line) {
            const bool needs_days = !stage.has_days && !line.dose.days_per_week;
            const bool needs_side = prescription.unread.side && !line.side;
            return !line.is_whole || needs_days || needs_side;
        });
        stage.has_all_lines = stage.has_all_lines && stage.exercises.size() == all;
    }
    return result;
}

} // namespace tickleaf::prescription
