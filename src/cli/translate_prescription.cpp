// SPDX-License-Identifier: MIT
#include "cli/translate_prescription.h"

#include <algorithm>
#include <utility>

#include "locale/exchange.h"
#include "locale/line_sheet.h"
#include "prescription/prescription.h"
#include "yaml/tree.h"

namespace tickleaf::cli {

namespace {

using prescription::FreeText;
using support::Findings;
using support::Span;

/// One free text of a prescription and how to get to it.
struct Place {
    std::string context;
    FreeText* text;
    std::string what; ///< for the translator
};

std::vector<Place> places(prescription::Prescription& rx) {
    std::vector<Place> out;
    const auto add = [&out](const std::string& key, FreeText& text, std::string what) {
        out.push_back({std::string(locale::kPrescriptionContext) + key, &text, std::move(what)});
    };
    add("clinic.name", rx.clinic.name, "The clinic's name");
    add("clinic.clinician", rx.clinic.clinician, "Who made the plan, with the profession");
    add("clinic.hours", rx.clinic.hours, "When somebody answers the telephone");
    add("clinic.address", rx.clinic.address, "Where the clinic is");
    for (prescription::Equipment& item : rx.home.equipment) {
        if (item.band) {
            add("home.band." + item.band->name, item.band->title,
                "What the patient calls the elastic band " + item.band->name);
        }
    }
    add("problem", rx.problem, "The patient's problem, one line on the cover");
    add("goal", rx.goal, "What the patient wants to be able to do again");
    for (std::size_t i = 0; i < rx.stages.size(); ++i) {
        prescription::Stage& stage = rx.stages[i];
        const std::string key = "stages." + std::to_string(i + 1);
        const std::string of = " of stage " + std::to_string(i + 1);
        add(key + ".title", stage.title, "Title" + of);
        add(key + ".move_on_text", stage.move_on_text, "When to move on, at the end" + of);
        for (std::size_t j = 0; j < stage.exercises.size(); ++j) {
            prescription::ExerciseLine& line = stage.exercises[j];
            add(key + ".exercises." + std::to_string(j + 1) + ".note", line.note,
                "Note at the exercise " + line.exercise.value + of);
        }
    }
    return out;
}

const std::pair<std::string, support::Located<std::string>>* source_of(const FreeText& text) {
    const auto& all = text.by_language;
    const auto english =
        std::find_if(all.begin(), all.end(), [](const auto& item) { return item.first == "en"; });
    return english != all.end() ? &*english : (all.empty() ? nullptr : &all.front());
}

/// Byte offset of a place in a text.
std::size_t offset_of(std::string_view text, const Span& span) {
    std::size_t at = 0;
    for (int line = 1; line < span.line; ++line) {
        at = text.find('\n', at) + 1;
    }
    for (int column = 1; column < span.column && at < text.size(); ++column) {
        ++at;
        while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0u) == 0x80u) {
            ++at;
        }
    }
    return at;
}

/// Where a scalar ends that begins at `at`, on its line.
std::size_t scalar_end(std::string_view text, std::size_t at, bool in_flow) {
    const std::size_t line_end = std::min(text.find('\n', at), text.size());
    if (text[at] == '"' || text[at] == '\'') {
        for (std::size_t i = at + 1; i < line_end; ++i) {
            if (text[at] == '"' && text[i] == '\\') {
                ++i;
            } else if (text[i] == text[at]) {
                return i + 1;
            }
        }
        return line_end;
    }
    std::size_t end = std::min(text.find(" #", at), line_end);
    if (in_flow) {
        end = std::min(text.find_first_of(",}", at), end);
    }
    while (end > at + 1 && (text[end - 1] == ' ' || text[end - 1] == '\r')) {
        --end;
    }
    return end;
}

/// Puts one language's text in where the first language is written, or over what is there.
void put(std::string& text, const FreeText& free, const std::string& language,
         const std::string& words) {
    const auto* first = &free.by_language.front();
    const std::size_t value = offset_of(text, first->second.span);
    const std::size_t line =
        text.rfind('\n', value) == std::string::npos ? 0 : text.rfind('\n', value) + 1;
    const std::size_t key = text.rfind(first->first + ":", value);
    const bool is_block =
        key != std::string::npos && key >= line && text.find_first_not_of(' ', line) == key;
    if (const auto* own = free.in(language); own != nullptr) {
        const std::size_t at = offset_of(text, own->span);
        text.replace(at, scalar_end(text, at, !is_block) - at, locale::yaml_quoted(words));
        return;
    }
    const std::string after = is_block ? "\n" + std::string(key - line, ' ') : ", ";
    text.insert(key == std::string::npos ? value : key,
                language + ": " + locale::yaml_quoted(words) + after);
}

std::optional<prescription::Prescription> parsed(int file, const support::Sources& sources,
                                                 Findings& findings) {
    const auto root = yaml::read(sources, file, findings);
    auto rx = root ? prescription::read(*root, findings) : std::nullopt;
    return findings.has_errors() ? std::nullopt : std::move(rx);
}

/// The value tree with the text in it, as the new file must read.
void expect(FreeText& free, const std::string& language, const std::string& words) {
    for (auto& [tag, text] : free.by_language) {
        if (tag == language) {
            text.value = words;
            return;
        }
    }
    free.by_language.insert(free.by_language.begin(), {language, {words, {}}});
}

/// One text put in and read again; nothing where the file would not say what it should.
std::optional<std::string> tried(const std::string& text, const locale::PoEntry& entry,
                                 const std::string& language) {
    support::Sources sources;
    Findings ignored;
    const int before = sources.add("before", text);
    auto rx = parsed(before, sources, ignored);
    if (!rx) {
        return std::nullopt;
    }
    const auto all = places(*rx);
    const auto place = std::find_if(all.begin(), all.end(), [&entry](const Place& candidate) {
        return candidate.context == entry.context;
    });
    std::string changed = text;
    put(changed, *place->text, language, entry.translation);
    expect(*place->text, language, entry.translation);
    const auto again = parsed(sources.add("after", changed), sources, ignored);
    const bool same = again && prescription::dump(*again) == prescription::dump(*rx);
    return same ? std::optional(std::move(changed)) : std::nullopt;
}

/// Whether an entry is to be put in; says why not where that is worth a word.
bool is_wanted(const locale::PoEntry& entry, const std::vector<Place>& all,
               const std::string& language, Findings& findings) {
    const auto place = std::find_if(all.begin(), all.end(), [&entry](const Place& candidate) {
        return candidate.context == entry.context;
    });
    const auto* source = place == all.end() ? nullptr : source_of(*place->text);
    if (source == nullptr || source->second.value != entry.source) {
        findings.error(entry.span, "po-outdated",
                       "text \"" + entry.context + "\" is not what the prescription says now: \"" +
                           (source == nullptr ? std::string() : source->second.value) + "\"",
                       "export again with --prescription");
        return false;
    }
    const auto& texts = place->text->by_language;
    const bool is_same = std::any_of(texts.begin(), texts.end(), [&](const auto& item) {
        return item.first == language && item.second.value == entry.translation;
    });
    if (entry.translation.empty() || is_same) {
        return false;
    }
    if (entry.fuzzy) {
        findings.warning(entry.span, "po-fuzzy",
                         "text \"" + entry.context +
                             "\" is fuzzy and is left out; a note cannot say that it is a draft",
                         "take the fuzzy mark away when the text is right");
        return false;
    }
    return true;
}

} // namespace

std::vector<locale::PoEntry> free_texts(int file, const support::Sources& sources,
                                        const std::string& language, Findings& findings) {
    std::vector<locale::PoEntry> out;
    auto rx = parsed(file, sources, findings);
    if (!rx) {
        return out;
    }
    for (const Place& place : places(*rx)) {
        const auto* source = source_of(*place.text);
        if (source == nullptr || source->first.empty() || source->first == language) {
            continue;
        }
        locale::PoEntry entry;
        entry.context = place.context;
        entry.source = source->second.value;
        entry.extracted = {place.what,
                           "No values and no braces here: the text is printed as it is."};
        entry.references = {
            sources.describe({source->second.span.file, source->second.span.line, 0})};
        const auto& texts = place.text->by_language;
        const auto own = std::find_if(texts.begin(), texts.end(), [&language](const auto& item) {
            return item.first == language;
        });
        entry.translation = own == texts.end() ? "" : own->second.value;
        out.push_back(std::move(entry));
    }
    return out;
}

std::optional<NewPrescription> with_texts(int file, const std::vector<locale::PoEntry>& entries,
                                          const std::string& language, support::Sources& sources,
                                          Findings& findings) {
    auto rx = parsed(file, sources, findings);
    if (!rx) {
        return std::nullopt;
    }
    const auto all = places(*rx);
    NewPrescription out{sources.at(file).text, {}};
    for (const locale::PoEntry& entry : entries) {
        if (!is_wanted(entry, all, language, findings)) {
            continue;
        }
        auto text = tried(out.text, entry, language);
        if (!text) {
            findings.error(
                entry.span, "prescription-layout",
                "text \"" + entry.context +
                    "\" cannot be put into the prescription without touching other lines",
                "write there by hand: " + language + ": " + locale::yaml_quoted(entry.translation));
            continue;
        }
        out.text = std::move(*text);
        out.changed.push_back(entry.context);
    }
    return findings.has_errors() ? std::nullopt : std::optional(std::move(out));
}

} // namespace tickleaf::cli
