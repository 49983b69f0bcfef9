// SPDX-License-Identifier: MIT
// How many paragraphs of the Declaration other programs read back as written, by language: poppler
// (pdftotext) and MuPDF (mutool draw). Run by hand; prints one line a translation and, with
// --show, the first paragraph each program reads otherwise. README.md tells why they differ.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "cli/disk.h"
#include "tests/support/pdf_text.h"
#include "tests/text/set_pages.h"
#include "tests/text/translations.h"

using namespace tickleaf;
using namespace tickleaf::testing;

namespace {

std::vector<std::string> pages_of(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    const std::string text(std::istreambuf_iterator<char>(stream), {});
    std::vector<std::string> pages;
    std::size_t begin = 0;
    for (std::size_t end = 0; (end = text.find('\f', begin)) != std::string::npos;
         begin = end + 1) {
        pages.push_back(text.substr(begin, end - begin));
    }
    return pages;
}

struct Reader {
    const char* name;
    std::string command; ///< IN and OUT stand for files
};

std::string with_files(std::string command, const std::string& in, const std::string& out) {
    command.replace(command.find("OUT"), 3, out);
    command.replace(command.find("IN"), 2, in);
    return command;
}

std::string without_spaces(std::string text) {
    text.erase(std::remove(text.begin(), text.end(), ' '), text.end());
    return text;
}

/// Paragraphs that are the same, and those that are but for spaces.
struct Equal {
    std::size_t exact = 0;
    std::size_t but_spaces = 0;
};

Equal count_equal(const std::vector<std::string>& wanted, const std::vector<std::string>& read,
                  bool show, const char* name) {
    Equal equal;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const std::string want = folded(wanted[i]);
        const std::string got = i < read.size() ? folded(read[i]) : "(nothing)";
        const bool letters = without_spaces(got) == without_spaces(want);
        equal.exact += got == want ? 1U : 0U;
        equal.but_spaces += letters ? 1U : 0U;
        if (show && !letters) {
            std::printf("    %s\n      wanted %s\n      read   %s\n", name, want.c_str(),
                        got.c_str());
            show = false;
        }
    }
    return equal;
}

void print(const Equal& equal) {
    std::printf("  %4zu %4zu", equal.exact, equal.but_spaces);
}

std::vector<std::string> own_reading(const std::string& bytes) {
    PdfReader reader(bytes);
    std::vector<std::string> pages;
    for (const PageText& page : reader.pages()) {
        pages.push_back(page.text());
    }
    return pages;
}

} // namespace

int main(int count, char** values) {
    const bool show = std::any_of(values + 1, values + count,
                                  [](const char* v) { return std::string(v) == "--show"; });
    const cli::Disk disk{TICKLEAF_ROOT};
    support::Sources sources;
    support::Findings findings;
    const auto fonts = text::Fonts::load(disk, sources, findings);
    const auto folder = std::filesystem::temp_directory_path() / "tickleaf-outside-readers";
    std::filesystem::create_directories(folder);
    const Reader readers[] = {{"poppler", "pdftotext IN OUT"},
                              {"MuPDF", "mutool draw -q -F text -o OUT IN"}};
    std::printf("%-10s %-14s %5s  %9s  %9s  %9s\n", "language", "file", "parts", "own", "poppler",
                "MuPDF");
    std::printf("%32s  exact, but for spaces\n", "");
    for (const Translation& translation : kTranslations) {
        const auto paragraphs = read_translation(TICKLEAF_DECLARATION, translation.file);
        const auto bytes = make_pdf(fonts, paragraphs, translation.language, findings);
        if (!bytes) {
            std::printf("%-10s cannot be made\n", translation.language);
            continue;
        }
        const auto pdf = folder / (std::string(translation.file) + ".pdf");
        std::ofstream(pdf, std::ios::binary) << *bytes;
        std::printf("%-10s %-14s %5zu", translation.language, translation.file, paragraphs.size());
        print(count_equal(paragraphs, own_reading(*bytes), show, "own"));
        for (const Reader& reader : readers) {
            const auto out = folder / (std::string(translation.file) + "." + reader.name + ".txt");
            const std::string command = with_files(reader.command, pdf.string(), out.string());
            const bool ran = std::system(command.c_str()) == 0;
            print(ran ? count_equal(paragraphs, pages_of(out), show, reader.name) : Equal{});
        }
        std::printf("\n");
    }
    return 0;
}
