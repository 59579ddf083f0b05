// node textmate.mjs INKS GRAMMAR: the TextMate grammar, as JSON or as a property list, run by the libraries that VS Code
// runs it with, gives every token of the samples the scope that belongs to what it is.
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import oniguruma from 'vscode-oniguruma'
import textmate from 'vscode-textmate'

const [inks, grammarFile] = process.argv.slice(2)

const SCOPES = {
  Comment: /^comment\.line/, Text: /^string\.quoted/, Number: /^constant\.numeric/, Color: /^constant\.other\.color/,
  Statement: /^keyword\.control/, Detail: /^keyword\.control|^keyword\.operator\.word/, Kind: /^support\.function\.kind/,
  Place: /^keyword\.operator\.word/, Unit: /^keyword\.other\.unit/, Operator: /^keyword\.operator\.knot/,
  Mark: /^support\.function\.mark/, Motif: /^entity\.name\.function/, Thread: /^variable/, Parameter: /^variable/,
  Counter: /^variable/, Label: /^variable|^entity\.name\.label/,
}

const wasm = createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm')
await oniguruma.loadWASM(readFileSync(wasm).buffer)
const registry = new textmate.Registry({
  onigLib: {
    createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
    createOnigString: (text) => new oniguruma.OnigString(text),
  },
  loadGrammar: async () => textmate.parseRawGrammar(readFileSync(grammarFile, 'utf8'), grammarFile),
})
const grammar = await registry.loadGrammar('source.knot')

/** Of each line, the innermost scope of every UTF-16 unit. */
function scopes (text) {
  let stack = textmate.INITIAL
  return text.split(/\r\n|\n|\r/).map(line => {
    const read = grammar.tokenizeLine(line, stack)
    stack = read.ruleStack
    return read.tokens.flatMap(token => Array(token.endIndex - token.startIndex).fill(token.scopes))
  })
}

function wrong (sample) {
  const lines = scopes(sample.text)
  return sample.tokens.flatMap(({ line, column, text, ink }) => {
    const start = [...sample.text.split(/\r\n|\n|\r/)[line]].slice(0, column).join('').length
    const found = lines[line].slice(start, start + text.length)
    const fits = found.every(list => list.some(scope => SCOPES[ink].test(scope)))
    return fits ? [] : [`${sample.name}:${line + 1}: ${text} is ${ink}, but ${found[0].slice(1).join(' ')}`]
  })
}

const samples = JSON.parse(readFileSync(inks, 'utf8'))
const mistakes = samples.flatMap(wrong)
const count = samples.reduce((sum, sample) => sum + sample.tokens.length, 0)
console.log([...mistakes, `${count} tokens of ${samples.length} samples, ${mistakes.length} colored wrongly`].join('\n'))
process.exit(count === 0 || mistakes.length > 0 ? 1 : 0)
