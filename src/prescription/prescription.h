// SPDX-License-Identifier: MIT
// The prescription, format 1: what the clinician wrote, typed, with positions. No prose is made
// here and no exercise file is known here; ids are checked later against what exists. Errors: every
// mistake of the file is a finding in one run. Missing clinician, contact, patient name, stages:
// errors.
#pragma once

#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "prescription/dose_form.h"
#include "support/finding.h"
#include "support/side.h"
#include "support/units.h"

namespace tickleaf::prescription {

using support::Located;
using Date = std::chrono::year_month_day;

/// The same free text in several languages, by BCP 47 tag, in file order. A plain scalar is under
/// "".
struct FreeText {
    std::vector<std::pair<std::string, Located<std::string>>> by_language;
    bool empty() const { return by_language.empty(); }
    /// The one text for all languages, where no language is named.
    const Located<std::string>* for_all() const;
    /// The text for a language; a text under "" (no language named) serves any. Nothing where
    /// missing.
    const Located<std::string>* in(std::string_view language) const;
};

struct Patient {
    Located<std::string> name;
    std::vector<Located<std::string>> languages; ///< BCP 47, first is the patient's own
    std::optional<Located<double>> height_mm;    ///< 1.70 m is assumed for drawings where missing
};

/// What a patient reads is free text: a profession and opening hours have words to translate.
struct Clinic {
    FreeText name;
    FreeText clinician; ///< name and profession, as printed
    Located<std::string> phone;
    Located<std::string> emergency; ///< the local emergency number, never taken from a translation
    std::optional<Located<std::string>> email;
    FreeText hours;
    FreeText address;
};

struct Band {
    std::string name; ///< what exercises call it by
    FreeText title;   ///< its name in the patient's words; the name itself where left out
    double rest_length_mm = 0.0;
    double force_at_double_newtons = 0.0;
};
/// One thing the patient has at home: its kind (chair, step, wall, band, ball, towel, cushion...)
/// and sizes.
struct Equipment {
    Located<std::string> kind;
    std::optional<double> height_mm; ///< of a step
    std::optional<Band> band;
};
struct Home {
    std::optional<Located<std::int64_t>> minutes_per_day;
    std::vector<Equipment> equipment;
};

/// A precaution: a joint movement bounded, or a plain ban such as "no impact".
struct Limit {
    enum class Kind { JointAngle, NoImpact, NoWeightBearing, PartialWeightBearing };
    Kind kind = Kind::NoImpact;
    support::Side side = support::Side::Both;
    std::string joint;    ///< "ankle", "knee"...
    std::string movement; ///< "inversion", "flexion"...
    double degrees = 0.0; ///< at most
    support::Span span{};
    std::string as_written;
};

/// Pain from 0 to `carry_on_up_to`: carry on; up to `ease_off_up_to`: do less; above: stop. Both
/// ends included.
struct PainRule {
    int carry_on_up_to = 2;
    int ease_off_up_to = 5;
    support::Span span{};
};

/// One exercise as prescribed.
struct ExerciseLine {
    Located<std::string> exercise;              ///< id of a file in figures/
    std::optional<Located<support::Side>> side; ///< the prescription's side where missing
    Dose dose;
    std::optional<Tempo> tempo;
    std::optional<BeginValue> begin;
    std::optional<Located<std::string>> band; ///< name of a band in home.equipment
    FreeText note;
    bool is_whole = true; ///< nothing in it was an error
};

/// A stage: weeks counted from 1, both included.
struct Stage {
    Located<std::string> name; ///< a key of the catalog (stage.NAME) or free text
    FreeText title;            ///< where the clinician names the stage in the patient's words
    support::Range<int> weeks{1, 1};
    support::Span weeks_span{};
    support::Range<int> days_per_week{7, 7};
    std::vector<Located<std::string>> move_on_when; ///< keys of the catalog (criterion.KEY)
    FreeText move_on_text;                          ///< further criteria in free text
    std::vector<ExerciseLine> exercises;
    support::Span span{};
    bool has_whole_frame = true; ///< nothing but its lines had an error
    bool has_days = true;        ///< its days a week are known
    bool has_all_lines = true;   ///< no line had an error, and none is left out
};

/// A rule of check/ switched off for this prescription, with a reason for the clinician's copy.
struct Waiver {
    Located<std::string> rule;
    Located<std::string> reason;
};

/// Parts of the file that hold an error: what they say, or leave unsaid, is not to be judged.
struct Unread {
    bool patient = false, problem = false, side = false, home = false, dates = false;
};

struct Prescription {
    Patient patient;
    Clinic clinic;
    FreeText problem;
    std::optional<Located<support::Side>> side;
    std::optional<Located<Date>> starts;
    std::optional<Located<Date>> review;
    Home home;
    std::vector<Limit> limits;
    PainRule pain;
    std::vector<Stage> stages;
    std::optional<Located<std::int64_t>> logbook_weeks;
    FreeText goal;
    std::vector<Waiver> waivers;
    support::Span span{};
    Unread unread;
};

/// Reads a whole prescription. Nothing only where it cannot be used at all; look at
/// findings.has_errors() too. With errors, `unread` and the flags of stages and lines say what can
/// still be judged.
std::optional<Prescription> read(const yaml::Node& root, support::Findings& findings);

/// The same with the lines alone that can be judged, so that one run tells the slips of the pen and
/// what the rules say of the rest. Lines that have errors, or hang on something that has, are out.
Prescription judgeable(const Prescription& prescription);

/// The prescription as JSON (for `tickleaf inspect --stage prescription`), two-space indented.
std::string dump(const Prescription& prescription);

} // namespace tickleaf::prescription
