// SPDX-License-Identifier: MIT
// Any bytes as a paragraph in one of several languages and widths: lines whose runs cover text, or
// findings.
#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "cli/disk.h"
#include "text/paragraph.h"

using namespace tickleaf;

namespace {

std::shared_ptr<const text::Fonts> load() {
    static const cli::Disk disk{TICKLEAF_ROOT};
    support::Sources sources;
    support::Findings findings;
    return text::Fonts::load(disk, sources, findings);
}

constexpr std::array<std::string_view, 6> kLanguages = {"en", "ar", "hi", "th", "ja", "ur"};

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const auto fonts = load();
    if (size < 2 || fonts == nullptr) {
        return 0;
    }
    const std::string_view language = kLanguages.at(data[0] % kLanguages.size());
    const std::string_view bytes(reinterpret_cast<const char*>(data) + 2, size - 2);
    text::FontSet set(fonts);
    support::Findings findings;
    const text::ParagraphSource source{bytes, language, text::is_right_to_left(language),
                                       {},    "fuzz",   {}};
    const text::Paragraph paragraph = text::prepare(set, source, findings);
    for (const text::Line& line : paragraph.lines({20.0 + data[1] * 2.0, 0.0})) {
        for (const page::GlyphRun& run : line.runs) {
            for (const page::Glyph& glyph : run.glyphs) {
                if (glyph.text_end > run.text.size() || glyph.text_begin > glyph.text_end) {
                    __builtin_trap();
                }
            }
        }
    }
    return 0;
}
