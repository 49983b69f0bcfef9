// SPDX-License-Identifier: MIT
// The demo in every language as a reader of its tags gets it: the rules of PDF/UA-1 and PDF/A-2,
// the text in the order of the structure tree, and the tree as another reader (poppler) sees it.
#include <catch2/catch.hpp>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "cli/disk.h"
#include "shell.h"
#include "support/utf8.h"
#include "tests/support/pdf_archive.h"
#include "tests/support/pdf_check.h"
#include "workspace/workspace.h"

using namespace tickleaf;
using tests::Folder;
using tests::run;

namespace {

struct Made {
    content::Booklet booklet;
    std::string pdf;
    bool is_split = false; ///< an exercise is longer than a page and set in another order
};

/// The demo with its free texts in every language.
class Demo {
  public:
    std::vector<std::string> languages() const {
        std::vector<std::string> names;
        for (const auto& entry :
             std::filesystem::directory_iterator(std::string(TICKLEAF_ROOT) + "/locales")) {
            if (entry.is_directory()) {
                names.push_back(entry.path().filename());
            }
        }
        std::sort(names.begin(), names.end());
        return names;
    }

    Made make(const workspace::Choice& choice) {
        std::string why;
        const std::string path =
            std::string(TICKLEAF_ROOT) + "/tests/booklet/cases/ankle-sprain-all-languages.yaml";
        const auto text = cli::read_file(path, 1U << 20U, why);
        REQUIRE(text);
        support::Findings findings;
        const auto plan = workspace_.plan(sources_.add("demo.yaml", *text), findings);
        const auto booklet = plan ? workspace_.booklet(*plan, choice, findings) : std::nullopt;
        const auto document =
            booklet ? workspace_.document(*booklet, choice, findings) : std::nullopt;
        const auto pdf = document ? workspace_.pdf(*document, findings) : std::nullopt;
        for (const auto& finding : findings.sorted()) {
            UNSCOPED_INFO(support::to_text(finding, sources_));
        }
        REQUIRE(pdf);
        const auto all = findings.sorted();
        const bool is_split = std::any_of(all.begin(), all.end(), [](const auto& finding) {
            return finding.id == "layout-group-split";
        });
        return {*booklet, *pdf, is_split};
    }

  private:
    cli::Disk disk_{TICKLEAF_ROOT};
    support::Sources sources_;
    workspace::Workspace workspace_{disk_, sources_};
};

void require_rules(const std::string& pdf) {
    for (const auto& failure : testing::check_pdf_ua(pdf)) {
        UNSCOPED_INFO("PDF/UA-1 " << failure.clause << " " << failure.message);
    }
    for (const auto& failure : testing::check_pdf_a(pdf)) {
        UNSCOPED_INFO("PDF/A-2 " << failure.clause << " " << failure.message);
    }
    CHECK(testing::failed_clauses(pdf).empty());
    CHECK(testing::failed_archive_clauses(pdf).empty());
}

/// Without spaces of any kind: where lines and cells end is not the text's business.
std::string without_spaces(const std::string& text) {
    std::string result;
    const std::string copied = testing::as_copied(text);
    for (std::size_t offset = 0; offset < copied.size();) {
        const auto decoded = support::decode_utf8(std::string_view(copied).substr(offset));
        if (!decoded) {
            FAIL("text is not UTF-8");
        }
        const char32_t c = decoded->code_point;
        if (c != ' ' && c != '\n' && c != 0xA0 && c != 0x202F) {
            result.append(copied, offset, decoded->length);
        }
        offset += decoded->length;
    }
    return result;
}

/// Takes out what stands inside of drawings with a text alternative, which is said in its place.
struct DrawingTexts {
    void operator()(content::PainScale& scale) const { scale.numbers.clear(); }
    void operator()(content::Callout& callout) const { clear(callout.blocks); }
    void operator()(content::Group& group) const { clear(group.blocks); }
    void operator()(content::Columns& columns) const {
        clear(columns.first);
        clear(columns.second);
    }
    template <class Other>
    void operator()(Other&) const {}

    void clear(std::vector<content::Block>& blocks) const {
        for (content::Block& block : blocks) {
            std::visit(*this, block.value);
        }
    }
};

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; at += part.size()) {
        ++count;
    }
    return count;
}

/// Lines that fill a page stand in a logbook only where there is room: their words, which the notes
/// of every week have too, are taken out where they are read once less than they are written.
void leave_out_unused_lines(content::Booklet& booklet, const std::string& read) {
    for (content::Part& part : booklet.parts) {
        const auto fills = [](const content::Block& block) {
            const auto* lines = std::get_if<content::WritingLines>(&block.value);
            return lines != nullptr && lines->lines == 0 && !lines->label.empty();
        };
        const auto filler = std::find_if(part.blocks.begin(), part.blocks.end(), fills);
        if (part.kind != content::Part::Kind::Logbook || filler == part.blocks.end()) {
            continue;
        }
        const std::string label =
            without_spaces(std::get<content::WritingLines>(filler->value).label.text);
        std::string said;
        for (const std::string& string : content::all_strings(booklet)) {
            said += without_spaces(string) + "\n";
        }
        if (count_of(read, label) + 1 == count_of(said, label)) {
            part.blocks.erase(filler);
        }
    }
}

/// As StructureElement::text, with a figure's alternative left out (it is not the page's text), and
/// so the number of the page that a line of the contents leads to: the checker tests that one.
std::string text_outside_figures(const testing::StructureElement& element) {
    std::string text;
    for (const auto& kid : element.kids) {
        if (kid.element == nullptr) {
            text += kid.is_object_reference ? std::string() : kid.text;
        } else if (kid.element->role == "Reference") {
            const std::string line = kid.element->text();
            // A no-break space may be written as the space that looks the same.
            const std::size_t plain = line.rfind(' ');
            const std::size_t kept = line.rfind("\u00A0");
            const std::size_t end = kept == std::string::npos    ? plain
                                    : plain == std::string::npos ? kept
                                                                 : std::max(kept, plain);
            text += line.substr(0, end) + "\n";
        } else if (kid.element->role != "Figure") {
            text += text_outside_figures(*kid.element) + "\n";
        }
    }
    return text;
}

/// What a screen reader says must be what the booklet says, all of it and in its order.
void require_reading_order(const Made& made) {
    testing::PdfReader reader(made.pdf);
    REQUIRE(reader.structure());
    std::string read = without_spaces(text_outside_figures(*reader.structure()));
    content::Booklet booklet = made.booklet;
    for (content::Part& part : booklet.parts) {
        DrawingTexts{}.clear(part.blocks);
    }
    leave_out_unused_lines(booklet, read);
    std::string said;
    for (const std::string& string : content::all_strings(booklet)) {
        said += without_spaces(string);
    }
    if (made.is_split) {
        // What to take care of then stands before the drawing, not on the page after it: the same
        // characters, but not in the booklet's order.
        std::sort(read.begin(), read.end());
        std::sort(said.begin(), said.end());
    }
    const auto differ = std::mismatch(read.begin(), read.end(), said.begin(), said.end());
    const auto at = static_cast<std::size_t>(differ.first - read.begin());
    INFO("read: ..." << read.substr(at > 60 ? at - 60 : 0, 200));
    INFO("said: ..." << said.substr(at > 60 ? at - 60 : 0, 200));
    CHECK(read.size() == said.size());
    CHECK(at == std::max(read.size(), said.size()));
}

void add_roles(const testing::StructureElement& element, std::size_t depth, std::string& out) {
    out += std::string(2 * depth, ' ') + element.role + '\n';
    for (const auto& kid : element.kids) {
        if (kid.element != nullptr) {
            add_roles(*kid.element, depth + 1, out);
        }
    }
}

/// The same tree as poppler prints it: types by indentation, without attributes and remarks.
std::string roles_by_poppler(const std::string& path) {
    const auto ran = run("pdfinfo -struct " + path);
    std::istringstream lines(ran.output);
    std::string out;
    for (std::string line; std::getline(lines, line);) {
        const std::size_t begin = line.find_first_not_of(' ');
        // poppler 22.12 knows no PrintField attributes and says so of every box.
        const bool is_remark = line.starts_with("Syntax");
        if (begin == std::string::npos || line[begin] == '/' || is_remark ||
            line.compare(begin, 7, "Object ") == 0) {
            continue;
        }
        out += line.substr(0, line.find_first_of(" :", begin)) + '\n';
    }
    return out;
}

void require_same_tree(const std::string& pdf) {
    const Folder folder;
    const std::string path = folder.file("demo.pdf");
    std::ofstream(path, std::ios::binary) << pdf;
    std::string roles;
    testing::PdfReader reader(pdf);
    add_roles(*reader.structure(), 0, roles);
    CHECK(roles_by_poppler(path) == roles);
}

Made checked(Demo& demo, const std::string& language, const char* page_template) {
    workspace::Choice choice;
    choice.language = language;
    choice.page_template = page_template;
    Made made = demo.make(choice);
    require_rules(made.pdf);
    require_reading_order(made);
    require_same_tree(made.pdf);
    return made;
}

} // namespace

TEST_CASE("the demo keeps PDF/UA-1 and PDF/A-2 and reads in order, here and in poppler, in every "
          "language") {
    Demo demo;
    std::size_t in_booklet_order = 0;
    const std::vector<std::string> languages = demo.languages();
    for (const std::string& language : languages) {
        INFO(language);
        if (!checked(demo, language, "standard").is_split) {
            ++in_booklet_order;
        }
    }
    CHECK(in_booklet_order > languages.size() / 2);
}

TEST_CASE("large print keeps the rules in both directions") {
    Demo demo;
    for (const char* language : {"en", "ar"}) {
        INFO(language);
        checked(demo, language, "large-print");
    }
}
