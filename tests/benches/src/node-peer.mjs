// The forty windows in json-rules-engine: rules as JSON, one a window. Its data cannot multiply, so the event carries the
// figures of every use and a handler works the window out, which is the quickest form that was found.
// Standard input and output as those of `peers`. The argument is a folder that has node_modules.
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'

const require = createRequire(join(process.argv[2], 'package.json'))
const { Engine } = require('json-rules-engine')
const { rounds, rows, facts: sets } = JSON.parse(readFileSync(0, 'utf8'))

const rules = rows.map((row) => ({
  name: row.id,
  conditions: {
    all: [
      { fact: 'use', operator: 'in', value: ['street', 'bracket', 'all-out'] },
      ...(row.scale ? [{ fact: row.scale, operator: 'greaterThan', value: 0 }] : []),
    ],
  },
  event: { type: 'window', params: row },
}))
const engine = new Engine(rules)
const adders = ['nitrous', 'turbo', 'blower']

const ask = async (facts) => {
  const { events } = await engine.run(facts)
  const adds = adders.includes(facts.adder) ? 1 : 0
  const windows = new Map()
  for (const { params: row } of events) {
    const figures = row[facts.use]
    const unit = row.scale ? facts[row.scale] * 0.001 : 0.0000254
    windows.set(row.id, figures.map((figure, side) => (figure + adds * row.added[side]) * unit))
  }
  return rows.map((row) => windows.get(row.id))
}

const windows = []
for (const facts of sets) windows.push(await ask(facts))
const [timed] = sets
for (let i = 0; i < 300; i++) await ask(timed) // until its compiler has settled
const us = []
for (let round = 0; round < rounds; round++) {
  const start = process.hrtime.bigint()
  for (let i = 0; i < 4; i++) await ask(timed)
  us.push(Number(process.hrtime.bigint() - start) / 4000)
}
console.log(JSON.stringify([{ name: 'json-rules-engine, Node.js', us, windows }]))
